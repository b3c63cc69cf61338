#include "core/map_json.h"

#include "core/map_image.h"

namespace core {
namespace {

/// Colours told of a scale: enough for a smooth key.
constexpr int kColours = 33;

void write_colour(Json& json, std::uint32_t rgb) {
  constexpr char kDigits[] = "0123456789abcdef";
  char text[] = "#000000";
  for (int i = 6; i >= 1; --i, rgb >>= 4U) text[i] = kDigits[rgb & 0xfU];
  json.text(text);
}

}  // namespace

void write_map(Json& json, const MapStudy& study) {
  const MapChoice& c = study.choice();
  const MapField& field = study.field();
  const Wind wind = study.setup().wind;
  const Range good = study.good();
  json.open_object().field("mapped", name_of(c.mapped)).field("plan", name_of(c.plan));
  json.text_or_null("less", c.less ? name_of(*c.less) : "");
  json.field("most_kt", c.most_kt).field("tolerance_nm", c.tolerance_nm);
  json.field("directions", field.empty() ? 0 : field.grid.directions);
  json.field("speeds", field.empty() ? 0 : field.grid.speeds);
  json.field("share", share_in(field, good));
  json.key("range").open_array();
  good.low > -1e8 ? json.number(good.low) : json.null();
  json.number(good.high).close_array();
  json.field("middle", study.middle()).field("reach", study.reach());
  const Distances far = distances(field, study.middle());
  json.key("spread").open_object().field("mean", far.mean).field("median", far.median);
  json.field("ninety_five", far.ninety_five).field("most", far.most).close_object();
  json.key("levels").open_array();
  for (const double level : study.contour_levels()) json.number(level);
  json.close_array();
  json.key("rules").open_array();
  for (int rule = 0; rule < kHeadingRules && !field.rule.empty(); ++rule) {
    json.number(share_of(field, static_cast<HeadingRule>(rule)));
  }
  json.close_array();
  json.key("wind").open_object().field("from_deg", wind.from_deg).field("speed_kt", wind.speed_kt);
  json.field("value", map_value(study.setup(), c, wind)).close_object();
  json.close_object();
}

void write_map_colours(Json& json, Mapped mapped, Theme theme) {
  json.open_object().key("scale").open_array();
  for (int i = 0; i < kColours; ++i) {
    write_colour(json, map_colour(mapped, 2.0 * i / (kColours - 1) - 1.0, theme));
  }
  json.close_array().key("rules").open_array();
  for (int rule = 0; rule < kHeadingRules; ++rule) {
    write_colour(json, rule_colour(static_cast<HeadingRule>(rule), theme));
  }
  json.close_array().close_object();
}

}  // namespace core
