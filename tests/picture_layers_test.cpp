// The picture's layers that are off at first, and the laps: what they show, where, and
// that they say the same as the numbers.
#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>
#include <cstring>
#include <string>
#include <vector>

#include "core/explain.h"
#include "core/label_placer.h"
#include "core/limits.h"
#include "core/needles.h"
#include "core/picture.h"
#include "core/svg.h"
#include "core/trade_words.h"
#include "core/words.h"
#include "tests/random.h"
#include "tests/scenarios.h"
#include "tests/tally.h"
#include "web/session.h"

using namespace core;
using Catch::Matchers::WithinAbs;

namespace {

struct Drawn {
  WorkedCase worked;
  PictureOptions options;
  Diagram diagram;
};

Layers with(std::initializer_list<const char*> names) {
  Layers layers;
  for (const char* name : names) *layer_by_name(layers, name) = true;
  return layers;
}

Layers all() { return with({"sectors", "other_entry", "area", "limits"}); }

Drawn drawn(const Scenario& s, const Layers& layers, double w = 900.0, double h = 600.0) {
  Drawn d{work_out(s), {}, {}};
  d.options.layers = layers;
  d.options.view = fitted(d.worked, w, h, layers);
  d.options.wind_corner = emptiest_corner(d.worked, d.options.view, false, layers);
  d.options.time_s = 40.0;
  draw_picture(d.worked, d.options, d.diagram);
  return d;
}

std::vector<const Item*> all_of(const Diagram& d, Role role, Shape shape) {
  std::vector<const Item*> found;
  for (const Item& i : d.items) {
    if (i.role == role && i.shape == shape) found.push_back(&i);
  }
  return found;
}

Vec2 point(const Diagram& d, const Item& i, std::uint32_t k) { return d.points[i.first + k]; }

bool same_bytes(const Diagram& a, const Diagram& b) {
  return a.items.size() == b.items.size() && a.points == b.points && a.text == b.text &&
         std::memcmp(a.items.data(), b.items.data(), a.items.size() * sizeof(Item)) == 0;
}

/// Whether `p` lies in a polygon: count of sides that a ray from it meets.
bool inside(const Diagram& d, const Item& polygon, Vec2 p) {
  bool in = false;
  for (std::uint32_t k = 0; k < polygon.count; ++k) {
    const Vec2 a = point(d, polygon, k);
    const Vec2 b = point(d, polygon, k + 1 < polygon.count ? k + 1 : 0);
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

/// The text at the picture's foot, whose lines are written from the bottom up.
std::string foot(const Diagram& d, Role role) {
  std::string text;
  for (const Item& i : d.items) {
    const bool plain = i.shape == Shape::label && i.role == role && i.offset_x_px == 0.0F &&
                       i.offset_y_px == 0.0F && i.angle_deg == 0.0F &&
                       d.view.to_px(d.points[i.first]).y > 0.5 * d.view.height_px;
    if (plain) text = std::string(d.text_of(i)) + (text.empty() ? "" : " ") + text;
  }
  return text;
}

constexpr Role kNewRoles[] = {Role::sector, Role::sector_fill, Role::other_entry,
                              Role::area,   Role::area_buffer, Role::area_fill,
                              Role::limit,  Role::station,     Role::lap};

Scenario near_an_edge(test::Random& r) {
  for (;;) {
    Scenario s = test::calm_scenario(r);
    s.entry.reset();
    const Setup still = make_setup(s);
    const double edges[] = {0.0, 110.0, -70.0};
    const double delta = edges[r.below(3)] + r.between(-4.0, 4.0);
    // Crab so that the heading, not the course, lies there.
    const double heading = still.hold.outbound_course_deg() + still.turn_sign * delta;
    const double tas = still.tas_kt;
    const Vec2 ground = along(heading) * tas + still.wind.velocity_kt();
    s.arrival_course_deg = direction_of(ground);
    const Setup u = make_setup(s);
    if (u.arrival.exists && u.sector->also != u.sector->kind) return s;
  }
}

}  // namespace

TEST_CASE("layers: each has its name, and the new ones are off at first", "[layers]") {
  Layers layers;
  std::vector<const bool*> seen;
  for (int i = 0; i < kLayers; ++i) {
    const bool* const on = layer_by_name(layers, layer_name(i));
    REQUIRE(on);
    for (const bool* other : seen) CHECK(other != on);
    seen.push_back(on);
  }
  CHECK(sizeof(Layers) == kLayers);
  CHECK(layer_name(-1).empty());
  CHECK(layer_name(kLayers).empty());
  for (const char* name : {"sectors", "other_entry", "area", "limits"}) {
    CHECK_FALSE(*layer_by_name(layers, name));
  }
  const Drawn d = drawn(Scenario{}, {});
  for (const Item& i : d.diagram.items) {
    for (const Role role : kNewRoles) CHECK(i.role != role);
  }
}

TEST_CASE("layers: each draws its own roles and nothing of the others", "[layers]") {
  Scenario s;
  s.inbound_course_deg = 90.0;
  s.turns = Side::right;
  s.arrival_course_deg = 260.0;
  s.wind_from_deg = 360.0;
  s.wind_kt = 25.0;
  s.leg = Leg{Leg::Kind::distance, 5.0};
  s.measure = Measure::dme;
  s.station = {Station::Place::ahead, 9.0};
  struct Row {
    const char* layer;
    std::vector<Role> roles;
  };
  const Row rows[] = {{"sectors", {Role::sector, Role::sector_fill}},
                      {"other_entry", {Role::other_entry}},
                      {"area", {Role::area, Role::area_buffer, Role::area_fill}},
                      {"limits", {Role::limit, Role::station}}};
  for (const Row& row : rows) {
    const Drawn d = drawn(s, with({row.layer}));
    CAPTURE(row.layer);
    for (const Role role : kNewRoles) {
      bool wanted = false;
      for (const Role own : row.roles) wanted = wanted || own == role;
      bool has = false;
      for (const Item& i : d.diagram.items) has = has || i.role == role;
      CAPTURE(role_name(role));
      CHECK(has == wanted);
    }
  }
}

TEST_CASE("sectors: the arrow flies the heading, out of the sector that it is named for",
          "[layers][property]") {
  test::Random r(4301);
  test::Tally tally;
  int checked = 0;
  for (int k = 0; k < 2000; ++k) {
    Scenario s = test::random_scenario(r, 0.0);
    s.book = r.chance(0.5) ? Rulebook::faa : Rulebook::icao;
    const Drawn d = drawn(s, with({"sectors"}));
    const Setup& u = d.worked.setup;
    const auto arrows = all_of(d.diagram, Role::heading, Shape::arrow);
    const auto fills = all_of(d.diagram, Role::sector_fill, Shape::polygon);
    if (!u.arrival.exists) {
      tally.check(arrows.empty() && fills.empty(), [&] { return test::named(s); });
      continue;
    }
    if (!tally.check(arrows.size() == 1 && fills.size() == 1, [&] { return test::named(s); })) {
      continue;
    }
    const Vec2 tail = point(d.diagram, *arrows[0], 0);
    const Vec2 tip = point(d.diagram, *arrows[0], 1);
    tally.check(std::abs(wrap_180(direction_of(tip - tail) - u.arrival.heading_deg)) < 1e-6,
                [&] { return "arrow " + test::named(s); });
    const SectorChoice choice = choose_sector(u.hold, u.arrival.heading_deg);
    if (choice.boundary_deg < 1e-3) continue;
    ++checked;
    tally.check(inside(d.diagram, *fills[0], (tail + tip) * 0.5),
                [&] { return "wedge " + test::named(s); });
    // Each name stands where an aircraft comes from that would fly that entry.
    int names = 0;
    for (const Item* label : all_of(d.diagram, Role::sector, Shape::label)) {
      const double from = direction_of(d.diagram.points[label->first]);
      const EntryKind kind = choose_sector(u.hold, wrap_360(from + 180.0)).kind;
      tally.check(d.diagram.text_of(*label) == label_of(kind, s.book),
                  [&] { return "name " + test::named(s); });
      tally.check((label->emphasis == strong) == (kind == choice.kind),
                  [&] { return "strong " + test::named(s); });
      ++names;
    }
    tally.check(names == 3, [&] { return "names " + test::named(s); });
  }
  CHECK(checked > 1000);
  tally.settle(9000);
}

TEST_CASE("sectors: the rungs lie over the zones in which two entries are acceptable",
          "[layers][property]") {
  test::Random r(4302);
  for (int k = 0; k < 200; ++k) {
    const Scenario s = test::random_scenario(r);
    const Drawn d = drawn(s, with({"sectors"}));
    CAPTURE(test::named(s));
    int rungs = 0;
    for (const Item* line : all_of(d.diagram, Role::sector, Shape::polyline)) {
      if (line->opacity >= 1.0F) continue;
      ++rungs;
      for (std::uint32_t e = 0; e < 2; ++e) {
        const double heading = direction_of(point(d.diagram, *line, e)) + 180.0;
        CHECK_THAT(choose_sector(d.worked.setup.hold, wrap_360(heading)).boundary_deg,
                   WithinAbs(kSectorZoneDeg, 1e-6));
      }
    }
    CHECK(rungs >= 9);
    CHECK(rungs <= 72);
  }
}

TEST_CASE("other entry: drawn exactly where two are acceptable, along its own track",
          "[layers][property]") {
  test::Random r(4303);
  int two = 0;
  int one = 0;
  for (int k = 0; k < 400; ++k) {
    const Scenario s = r.chance(0.5) ? near_an_edge(r) : test::random_scenario(r);
    const Drawn d = drawn(s, with({"other_entry"}));
    const WorkedCase& c = d.worked;
    CAPTURE(test::named(s));
    std::vector<const EntryCase*> wanted;
    if (c.setup.sector && c.setup.sector->also != c.setup.sector->kind) {
      for (const EntryCase& e : c.entries) {
        const bool acceptable = e.kind == c.setup.sector->kind || e.kind == c.setup.sector->also;
        if (acceptable && e.kind != c.setup.entry && e.exists) wanted.push_back(&e);
      }
    }
    const auto lines = all_of(d.diagram, Role::other_entry, Shape::polyline);
    REQUIRE(lines.size() == wanted.size());
    (wanted.empty() ? one : two) += 1;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const Track& track = wanted[i]->flight.track;
      CHECK(point(d.diagram, *lines[i], 0) == track.position_at(0.0));
      const double end = wanted[i]->on_course_s().value_or(track.end_s());
      CHECK(point(d.diagram, *lines[i], lines[i]->count - 1) == track.position_at(end));
      const auto labels = all_of(d.diagram, Role::other_entry, Shape::label);
      REQUIRE(labels.size() == wanted.size());
      const std::string_view text = d.diagram.text_of(*labels[i]);
      CHECK(text.find(label_of(wanted[i]->kind, s.book)) != std::string_view::npos);
    }
    // Where there is but one, the picture says so.
    const bool says = foot(d.diagram, Role::quiet).find("one entry") != std::string::npos;
    CHECK(says == (c.setup.sector && c.setup.sector->also == c.setup.sector->kind));
  }
  CHECK(two > 100);
  CHECK(one > 50);
}

TEST_CASE("area: its caption stands in the picture if and only if the layer is on",
          "[layers][property]") {
  test::Random r(4304);
  for (int k = 0; k < 300; ++k) {
    const Scenario s = test::any_scenario(r);
    const double w = r.between(240.0, 1200.0);
    const double h = r.between(240.0, 900.0);
    CAPTURE(test::named(s), w, h);
    for (const bool on : {true, false}) {
      Layers layers = all();
      layers.area = on;
      const Drawn d = drawn(s, layers, w, h);
      CHECK((foot(d.diagram, Role::text).find(caption_of_area()) != std::string::npos) == on);
      const bool exists = area_of(d.worked.setup).exists();
      CHECK(!all_of(d.diagram, Role::area, Shape::polyline).empty() == (on && exists));
      for (const Item* i : all_of(d.diagram, Role::text, Shape::label)) {
        if (i->offset_x_px != 0.0F || i->offset_y_px != 0.0F) continue;
        const Vec2 p = d.options.view.to_px(d.diagram.points[i->first]);
        CHECK((p.x >= 0.0 && p.x <= w && p.y >= 6.0 && p.y <= h - 6.0));
      }
    }
  }
}

TEST_CASE("area: the lines are the area's own, worked out here or handed in", "[layers]") {
  Scenario s;
  s.turns = Side::right;
  s.altitude_ft = 9000.0;
  Drawn d = drawn(s, with({"area"}));
  const ProtectedArea area = area_of(d.worked.setup);
  REQUIRE(area.exists());
  CHECK(area.inputs.ias_kt == greatest_holding_speed(SpeedRule::faa, s.altitude_ft).ias_kt);
  const auto lines = all_of(d.diagram, Role::area, Shape::polyline);
  REQUIRE(lines.size() == 2);
  const auto buffer = all_of(d.diagram, Role::area_buffer, Shape::polyline);
  REQUIRE(buffer.size() == 1);
  for (int i = 0; i < Outline::kPoints; ++i) {
    const auto k = static_cast<std::uint32_t>(i);
    CHECK(point(d.diagram, *lines[0], k) == area.entry[i]);
    CHECK(point(d.diagram, *lines[1], k) == area.basic[i]);
    CHECK(point(d.diagram, *buffer[0], k) == area.buffer[i]);
  }
  Diagram handed;
  d.options.area = &area;
  draw_picture(d.worked, d.options, handed);
  CHECK(same_bytes(handed, d.diagram));
}

TEST_CASE("layers: fitted, what they add is in the picture; off, the view is as it was",
          "[layers][property]") {
  test::Random r(4305);
  test::Tally labels;
  for (int k = 0; k < 300; ++k) {
    const Scenario s = r.chance(0.5) ? near_an_edge(r) : test::calm_scenario(r);
    const double w = r.between(320.0, 1200.0);
    const double h = r.between(300.0, 900.0);
    CAPTURE(test::named(s), w, h);
    const WorkedCase c = work_out(s);
    const Viewport plain = fitted(c, w, h);
    const Viewport off = fitted(c, w, h, Layers{});
    CHECK((plain.centre == off.centre && plain.px_per_nm == off.px_per_nm));
    for (const char* layer : {"sectors", "other_entry", "area", "limits"}) {
      CAPTURE(layer);
      const Drawn d = drawn(s, with({layer}), w, h);
      CHECK(d.options.view.px_per_nm <= plain.px_per_nm);
      const auto in_picture = [&](Vec2 nm) {
        const Vec2 p = d.options.view.to_px(nm);
        return p.x >= 0.0 && p.y >= 0.0 && p.x <= w && p.y <= h;
      };
      for (const Item& i : d.diagram.items) {
        const bool ours = i.role == Role::sector || i.role == Role::other_entry ||
                          i.role == Role::area || i.role == Role::area_buffer;
        if (!ours || d.options.view.px_per_nm <= 1.0) continue;
        bool in = true;
        for (std::uint32_t n = 0; n < i.count; ++n) in = in && in_picture(point(d.diagram, i, n));
        CHECK(in);
      }
      for (const Item& i : d.diagram.items) {
        const bool ours = i.role == Role::sector || i.role == Role::other_entry ||
                          i.role == Role::area || i.role == Role::area_buffer ||
                          i.role == Role::limit || i.role == Role::station;
        if (!ours || i.shape != Shape::label) continue;
        const Vec2 at =
            d.options.view.to_px(point(d.diagram, i, 0)) +
            Vec2{static_cast<double>(i.offset_x_px), static_cast<double>(i.offset_y_px)};
        const double width =
            text_width_px(d.diagram.text_of(i), static_cast<double>(i.size), i.emphasis == strong);
        const double left = i.align == Align::left     ? at.x
                            : i.align == Align::centre ? at.x - 0.5 * width
                                                       : at.x - width;
        labels.check(left > -1.0 && left + width < w + 1.0 && at.y > 5.0 && at.y < h - 5.0, [&] {
          return std::string(d.diagram.text_of(i)) + " " + test::named(s) + std::to_string(w) +
                 " " + std::to_string(h);
        });
      }
      const SlowDown slow = slow_down_point(c.setup);
      if (std::string_view(layer) == "limits" && d.options.view.px_per_nm > 1.0) {
        CHECK(in_picture(slow.at));
      }
    }
  }
  labels.settle(2000);
}

TEST_CASE("layers: seen in a mirror", "[layers][property][symmetry]") {
  test::Random r(4306);
  for (int k = 0; k < 150; ++k) {
    Scenario s = near_an_edge(r);
    s.laps = r.below(4);
    if (r.chance(0.5)) {
      s.leg = Leg{Leg::Kind::distance, r.stepped(3.0, 12.0, 0.5)};
      s.station = {Station::Place::ahead, r.stepped(5.0, 20.0, 0.5)};
      s.measure = r.chance(0.5) ? Measure::dme : Measure::track;
    }
    Scenario m = test::mirrored(s);
    if (r.chance(0.5)) {
      s.radial_deg = wrap_360(s.inbound_course_deg + 160.0);
      m.radial_deg = wrap_360(360.0 - *s.radial_deg);
    }
    CAPTURE(test::named(s));
    Drawn a = drawn(s, all());
    Drawn b = drawn(m, all());
    // The same view, mirrored: a tie in the laps' labels must not move a line.
    b.options.view = a.options.view;
    b.options.view.centre.x = -a.options.view.centre.x;
    draw_picture(b.worked, b.options, b.diagram);
    for (const Role role : kNewRoles) {
      CAPTURE(role_name(role));
      for (const Shape shape : {Shape::polyline, Shape::polygon, Shape::ring, Shape::glyph}) {
        const auto as = all_of(a.diagram, role, shape);
        const auto bs = all_of(b.diagram, role, shape);
        REQUIRE(as.size() == bs.size());
        for (std::size_t i = 0; i < as.size(); ++i) {
          if (role == Role::other_entry || role == Role::lap) {
            // Rounding may give a turn one chord more; that flights mirror is tested elsewhere.
            if (shape != Shape::polyline) continue;
            CHECK(std::abs(static_cast<double>(as[i]->count) - bs[i]->count) < 6.0);
            const Vec2 p = point(a.diagram, *as[i], as[i]->count - 1);
            const Vec2 o = point(b.diagram, *bs[i], bs[i]->count - 1);
            CHECK(length(p - Vec2{-o.x, o.y}) < 1e-6);
            continue;
          }
          REQUIRE(as[i]->count == bs[i]->count);
          double worst = 0.0;
          const std::uint32_t n = as[i]->count;
          for (std::uint32_t j = 0; j < n; ++j) {
            const Vec2 p = point(a.diagram, *as[i], j);
            double nearest = 1e9;
            // Outlines run clockwise in both, and the bar's corners change sides.
            for (std::uint32_t q = 0; q < n; ++q) {
              const Vec2 o = point(b.diagram, *bs[i], q);
              nearest = std::fmin(nearest, length(p - Vec2{-o.x, o.y}));
            }
            worst = std::fmax(worst, nearest);
          }
          CHECK(worst < 1e-6);
        }
      }
    }
  }
}

TEST_CASE("limits: slow-down point, leg end, radial, station and cone say what the numbers say",
          "[layers][property]") {
  test::Random r(4307);
  int dme_ends = 0;
  int track_ends = 0;
  int radials = 0;
  for (int k = 0; k < 400; ++k) {
    Scenario s = test::calm_scenario(r);
    s.altitude_ft = r.stepped(1000.0, 12000.0, 500.0);
    if (r.chance(0.7)) {
      s.station.place = r.chance(0.5) ? Station::Place::ahead : Station::Place::behind;
      s.station.dme_nm = r.stepped(14.0, 40.0, 0.5);
    }
    if (r.chance(0.7)) s.leg = Leg{Leg::Kind::distance, r.stepped(2.0, 10.0, 0.5)};
    s.measure = r.chance(0.5) ? Measure::dme : Measure::track;
    s.aid = static_cast<Aid>(r.below(3));
    if (r.chance(0.5)) s.radial_deg = test::random_direction(r, 0.3);
    const Drawn d = drawn(s, with({"limits"}));
    const Setup& u = d.worked.setup;
    CAPTURE(test::named(s));
    auto lines = all_of(d.diagram, Role::limit, Shape::polyline);
    std::size_t next = 0;
    const SlowDown slow = slow_down_point(u);
    REQUIRE(slow.why == Stop::none);
    REQUIRE(lines.size() > next);
    CHECK(point(d.diagram, *lines[next++], 0) == slow.at);
    if (u.leg.kind == Leg::Kind::distance) {
      const double radius = ground_range_nm(leg_end_dme_nm(u), u.height_ft);
      if (s.measure == Measure::track) {
        const Item& line = *lines[next++];
        for (std::uint32_t n = 0; n < line.count; ++n) {
          CHECK_THAT(u.to_go_nm(point(d.diagram, line, n)), WithinAbs(u.leg.value, 1e-9));
        }
        ++track_ends;
      } else if (radius > 0.0) {
        const Item& line = *lines[next++];
        for (std::uint32_t n = 0; n < line.count; ++n) {
          const double ground = length(point(d.diagram, line, n) - u.station);
          CHECK_THAT(slant_range_nm(ground, u.height_ft), WithinAbs(leg_end_dme_nm(u), 1e-9));
        }
        ++dme_ends;
      }
    }
    if (lines.size() > next) {
      REQUIRE(s.radial_deg);
      const Item& line = *lines[next++];
      const Vec2 far = point(d.diagram, line, 1);
      CHECK(std::abs(wrap_180(direction_of(far - u.station) - *s.radial_deg)) < 1e-6);
      ++radials;
    }
    CHECK(lines.size() == next);
    const double cone = cone_radius_nm(s.aid, u.height_ft);
    const auto rings = all_of(d.diagram, Role::station, Shape::ring);
    REQUIRE(rings.size() == (cone > 0.0 ? 1U : 0U));
    if (cone > 0.0) {
      CHECK(rings[0]->size == static_cast<float>(cone));
      CHECK(point(d.diagram, *rings[0], 0) == u.station);
    }
    // The station itself, or the way to it from the picture's edge.
    const auto glyphs = all_of(d.diagram, Role::station, Shape::glyph);
    if (s.station.place == Station::Place::at_fix) {
      CHECK(glyphs.empty());
    } else {
      REQUIRE(glyphs.size() == 1);
      const Vec2 at = point(d.diagram, *glyphs[0], 0);
      CHECK_THAT(std::abs(wrap_180(direction_of(at) - direction_of(u.station))),
                 WithinAbs(0.0, 1e-6));
      const bool symbol = d.diagram.text_of(*glyphs[0]) == "station";
      CHECK(symbol == (length(at - u.station) < 1e-9));
    }
  }
  CHECK(dme_ends > 50);
  CHECK(track_ends > 50);
  CHECK(radials > 50);
}

TEST_CASE("laps: each has its line, its roll-out and its number; earlier ones are paler",
          "[layers][property]") {
  test::Random r(4308);
  int shared = 0;
  for (int k = 0; k < 400; ++k) {
    Scenario s = test::calm_scenario(r);
    s.laps = 1 + r.below(10);
    const Drawn d = drawn(s, {}, r.chance(0.5) ? 900.0 : 390.0, 600.0);
    const Flight& f = d.worked.flown;
    CAPTURE(test::named(s));
    const auto lines = all_of(d.diagram, Role::lap, Shape::polyline);
    REQUIRE(lines.size() == static_cast<std::size_t>(f.lap_count));
    std::size_t rolled_out = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      CHECK(point(d.diagram, *lines[i], 0) == f.track.position_at(f.laps[i].start_s));
      if (i > 0) {
        CHECK(lines[i - 1]->opacity < lines[i]->opacity);
        CHECK(lines[i - 1]->width_scale < lines[i]->width_scale);
      }
      rolled_out += f.laps[i].rollout.exists;
    }
    CHECK(all_of(d.diagram, Role::lap, Shape::disc).size() == rolled_out);
    // The numbers of the labels, all together, are 1 to n, each once.
    std::vector<int> named(static_cast<std::size_t>(f.lap_count) + 1, 0);
    for (const Item* label : all_of(d.diagram, Role::lap, Shape::label)) {
      const std::string text(d.diagram.text_of(*label));
      std::vector<int> numbers;
      for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] < '0' || text[i] > '9') continue;
        int n = 0;
        for (; i < text.size() && text[i] >= '0' && text[i] <= '9'; ++i) n = 10 * n + text[i] - '0';
        numbers.push_back(n);
      }
      REQUIRE((numbers.size() == 1 || numbers.size() == 2));
      shared += numbers.size() == 2;
      for (int n = numbers.front(); n <= numbers.back(); ++n) {
        REQUIRE(n <= f.lap_count);
        ++named[static_cast<std::size_t>(n)];
      }
    }
    for (int i = 0; i < f.lap_count; ++i) {
      const auto n = static_cast<std::size_t>(i);
      CHECK(named[n + 1] == (f.laps[n].rollout.exists ? 1 : 0));
    }
  }
  CHECK(shared > 100);
}

TEST_CASE("laps: the palest line still stands out 3:1 from the paper", "[layers][theme]") {
  const auto luminance = [](double r, double g, double b) {
    const auto linear = [](double c) {
      return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  };
  Scenario s;
  s.laps = 10;
  const Drawn d = drawn(s, {});
  const auto lines = all_of(d.diagram, Role::lap, Shape::polyline);
  REQUIRE(lines.size() == 10);
  for (const Theme theme : {Theme::light, Theme::dark}) {
    const Paint ink = paint(Role::lap, theme);
    const Paint paper = paint(Role::paper, theme);
    const double a = ink.opacity * static_cast<double>(lines[0]->opacity);
    const auto mixed = [&](int shift) {
      return (a * ((ink.rgb >> shift) & 255U) + (1.0 - a) * ((paper.rgb >> shift) & 255U)) / 255.0;
    };
    const auto plain = [&](int shift) { return ((paper.rgb >> shift) & 255U) / 255.0; };
    const double x = luminance(mixed(16), mixed(8), mixed(0));
    const double y = luminance(plain(16), plain(8), plain(0));
    CHECK((std::fmax(x, y) + 0.05) / (std::fmin(x, y) + 0.05) >= 3.0);
  }
}

TEST_CASE("layers: any scenario draws finite marks, a bounded count of them",
          "[layers][property]") {
  test::Random r(4309);
  for (int k = 0; k < 1500; ++k) {
    const Scenario s = test::any_scenario(r);
    const Drawn d = drawn(s, all(), r.between(1.0, 1500.0), r.between(1.0, 1000.0));
    CAPTURE(test::named(s));
    REQUIRE(d.diagram.items.size() < 6000);
    REQUIRE(d.diagram.points.size() < 60000);
    for (const Vec2 p : d.diagram.points) REQUIRE(std::isfinite(p.x + p.y));
    for (const Item& i : d.diagram.items) {
      REQUIRE(i.first + i.count <= d.diagram.points.size());
      REQUIRE(i.text_first + i.text_count <= d.diagram.text.size());
      REQUIRE(std::isfinite(i.size + i.angle_deg + i.offset_x_px + i.offset_y_px));
    }
  }
}

TEST_CASE("svg: a hollow symbol is filled with the paper of the theme, whatever its role",
          "[layers][svg]") {
  Scenario s;
  s.station = {Station::Place::ahead, 9.0};
  const Drawn d = drawn(s, with({"limits"}));
  const std::string svg = write_svg(d.diagram, Theme::dark, "");
  CHECK(svg.find("class=\"r-station s-ring s-hollow\"") != std::string::npos);
  CHECK(theme_css().find(" .s-hollow{fill:#fbfaf7}") != std::string::npos);
}

TEST_CASE("session: layers by name; the area follows the scenario", "[layers][session]") {
  web::Session s;
  s.resize(900.0, 600.0);
  for (int i = 0; i < kLayers; ++i) {
    const std::string_view name = layer_name(i);
    Layers before = s.layers();
    const bool was = *layer_by_name(before, name);
    CHECK((s.layer(name, !was) & web::kPicture) != 0);
    CHECK(s.layer(name, !was) == web::kNothing);
    Layers after = s.layers();
    CHECK(*layer_by_name(after, name) == !was);
    s.layer(name, was);
  }
  CHECK(s.layer("nonsense", true) == web::kNothing);
  const double plain = s.diagram().view.px_per_nm;
  // The report has the area only while its layer is on: it is new, too.
  CHECK((s.layer("area", true) & web::kScenario) != 0);
  CHECK(s.report().find("\"area\":null") == std::string::npos);
  CHECK(s.diagram().view.px_per_nm < plain);
  const auto drawn_now = [&] {
    const Diagram& d = s.diagram();
    const auto lines = all_of(d, Role::area, Shape::polyline);
    const ProtectedArea area = area_of(s.worked().setup);
    return lines.size() == 2 && point(d, *lines[0], 77) == area.entry[77];
  };
  CHECK(drawn_now());
  s.set("inbound", "100", false);
  CHECK(drawn_now());
  s.set("altitude", "12000", true);
  CHECK(drawn_now());
  s.undo();
  CHECK(drawn_now());
  // From so far, only the wind can be taken hold of.
  CHECK(s.handle_px(Handle::wind));
  CHECK_FALSE(s.handle_px(Handle::inbound));
  CHECK((s.layer("area", false) & web::kScenario) != 0);
  CHECK(s.report().find("\"area\":null") != std::string::npos);
  CHECK(s.handle_px(Handle::inbound));
  // A view that the person chose stays.
  s.zoom(300.0, 200.0, 1.5);
  const Viewport own = s.diagram().view;
  s.layer("area", true);
  CHECK(s.diagram().view.px_per_nm == own.px_per_nm);
  CHECK(s.diagram().view.centre == own.centre);
}

TEST_CASE("picture words: every layer that is drawn is said, and only those", "[layers]") {
  const auto has = [](const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
  };
  test::Tally tally;
  test::Random random(20261126);
  for (int n = 0; n < 300; ++n) {
    const Scenario s = near_an_edge(random);
    const auto say = [&s] { return write_link(s); };
    const WorkedCase c = work_out(s);
    PictureOptions o;
    tally.check(picture_words(c, o).empty() == (c.flown.lap_count == 0), say);
    o.layers = all();
    const std::string words = picture_words(c, o);
    tally.check(!has(words, "{") && !has(words, "core."), say);
    tally.check(has(words, sector_reason(c)), say);
    const Diagram d = drawn(s, o.layers).diagram;
    tally.check(
        has(words, "Also acceptable") == !all_of(d, Role::other_entry, Shape::polyline).empty(),
        say);
    tally.check(
        has(words, text_of("core.area.caption")) == !all_of(d, Role::area, Shape::polyline).empty(),
        say);
    tally.check(has(words, "slow down") == (slow_down_point(c.setup).why == Stop::none), say);
    // While the entry is asked for, nothing tells it.
    o.flight = false;
    tally.check(!has(picture_words(c, o), sector_reason(c)), say);
    tally.check(!has(picture_words(c, o), "Also acceptable"), say);
  }
  tally.settle(2000);
}

TEST_CASE("picture words: a second flight is said by its name and its miss", "[layers][session]") {
  web::Session s;
  s.resize(900.0, 600.0);
  CHECK(s.picture_words().empty());
  s.beside("heading=125", "your answer");
  const WorkedCase other = work_out(parse_link("heading=125").scenario);
  CHECK(s.picture_words() ==
        phrase("core.pic.words.beside", {{"whose", "your answer"}, {"headline", headline(other)}}));
  s.beside("", "");
  s.set("laps", "2", false);
  CHECK(s.picture_words() == phrase("core.pic.words.laps", {{"laps", "2"}}));
}
