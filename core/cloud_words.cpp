#include <algorithm>
#include <cmath>

#include "core/cloud.h"
#include "core/json.h"
#include "core/words.h"

namespace core {
namespace {

std::string_view label_of(Unknown unknown) {
  constexpr std::string_view kKeys[] = {"core.cloud.wind_from", "core.cloud.wind_speed",
                                        "core.cloud.heading",   "core.cloud.clock",
                                        "core.cloud.speed",     "core.cloud.turn_start"};
  return word(kKeys[static_cast<int>(unknown)]);
}

/// Whole; few are not none.
std::string percent(double share) {
  if (share > 0.0 && share < 0.005) return text_of("core.cloud.less_than_one");
  return fixed(100.0 * share, 0);
}

std::string place_text(double cross_nm) {
  return phrase(cross_nm < 0.0 ? "core.practice.past" : "core.practice.short",
                {{"nm", fixed(std::abs(cross_nm), 2)}});
}

/// The greatest first.
std::array<Unknown, kUnknowns> order_of(const VarianceShares& shares) {
  std::array<Unknown, kUnknowns> out{};
  for (std::size_t k = 0; k < kUnknowns; ++k) out[k] = static_cast<Unknown>(k);
  std::stable_sort(out.begin(), out.end(), [&](Unknown a, Unknown b) {
    return shares.of[static_cast<std::size_t>(a)].share >
           shares.of[static_cast<std::size_t>(b)].share;
  });
  return out;
}

/// Which matters most; empty where nothing varies.
std::string most_text(const VarianceShares& shares, const char* of_what) {
  if (std::isnan(shares.together.share)) return {};
  const std::array<Unknown, kUnknowns> order = order_of(shares);
  const auto share = [&](std::size_t place) {
    return shares.of[static_cast<std::size_t>(order[place])];
  };
  const bool alike =
      share(0).share - share(1).share < std::hypot(share(0).give_or_take, share(1).give_or_take);
  return phrase(alike ? "core.cloud.alike" : "core.cloud.most",
                {{"outcome", text_of(of_what)},
                 {"what", std::string(label_of(order[0]))},
                 {"other", std::string(label_of(order[1]))},
                 {"percent", percent(share(0).share)},
                 {"other_percent", percent(share(1).share)}});
}

void write_spread(Json& j, std::string_view key, const CloudSummary::Spread& s) {
  j.key(key).open_object().field("mean", s.mean).field("sd", s.sd);
  j.field("low", s.low).field("middle", s.middle).field("high", s.high).close_object();
}

void write_shares(Json& j, std::string_view key, const VarianceShares& shares) {
  if (std::isnan(shares.together.share)) {
    j.key(key).null();
    return;
  }
  j.key(key).open_object().field("flights", shares.used);
  j.key("rows").open_array();
  for (const Unknown unknown : order_of(shares)) {
    const VarianceShares::Share& s = shares.of[static_cast<std::size_t>(unknown)];
    j.open_object().field("unknown", name_of(unknown)).field("label", label_of(unknown));
    j.field("share", s.share).field("give_or_take", s.give_or_take).close_object();
  }
  j.close_array();
  j.field("together", shares.together.share);
  j.field("together_give_or_take", shares.together.give_or_take).close_object();
}

}  // namespace

std::string cloud_json(const Cloud& cloud, double tolerance_nm) {
  Json j;
  j.open_object().text_or_null("why", reason(cloud.why()));
  const CloudSummary s = cloud.summary(tolerance_nm);
  j.field("drawn", s.drawn).field("flown", s.flown).field("tolerance_nm", tolerance_nm);
  j.field("inside_share", s.inside_share);
  j.key("spread").open_array();
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    const auto unknown = static_cast<Unknown>(k);
    j.open_object().field("unknown", name_of(unknown)).field("label", label_of(unknown));
    j.field("plus_minus", cloud.spread()[unknown]).close_object();
  }
  j.close_array();
  write_spread(j, "cross_nm", s.cross_nm);
  write_spread(j, "inbound_s", s.inbound_s);
  const VarianceShares cross = cloud.cross_shares();
  const VarianceShares inbound = cloud.inbound_shares();
  write_shares(j, "cross_shares", cross);
  write_shares(j, "inbound_shares", inbound);
  j.key("words").open_array();
  if (s.flown > 0) {
    j.text(phrase("core.cloud.inside",
                  {{"percent", percent(s.inside_share)}, {"nm", fixed(tolerance_nm, 2)}}));
    j.text(phrase("core.cloud.range",
                  {{"low", place_text(s.cross_nm.low)}, {"high", place_text(s.cross_nm.high)}}));
    if (s.flown < s.drawn) {
      j.text(phrase("core.cloud.unflown",
                    {{"count", fixed(s.drawn - s.flown, 0)}, {"drawn", fixed(s.drawn, 0)}}));
    }
  }
  for (const std::string& most : {most_text(cross, "core.cloud.outcome.cross"),
                                  most_text(inbound, "core.cloud.outcome.inbound")}) {
    if (!most.empty()) j.text(most);
  }
  j.close_array().close_object();
  return j.take();
}

}  // namespace core
