// The picture: what must be on it, where, and that no scenario breaks it.
#include "core/picture.h"

#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>
#include <string>

#include "core/explain.h"
#include "core/svg.h"
#include "core/text_number.h"
#include "core/words.h"
#include "tests/random.h"
#include "tests/scenarios.h"

using namespace core;
using Catch::Matchers::WithinAbs;

namespace {

struct Drawn {
  WorkedCase worked;
  PictureOptions options;
  Diagram diagram;
};

Drawn drawn(const Scenario& s, double w = 880.0, double h = 640.0) {
  Drawn d{work_out(s), {}, {}};
  d.options.view = fitted(d.worked, w, h);
  d.options.wind_corner = emptiest_corner(d.worked, d.options.view, false);
  d.options.time_s = 40.0;
  draw_picture(d.worked, d.options, d.diagram);
  return d;
}

const Item* first_of(const Diagram& d, Role role, Shape shape) {
  for (const Item& i : d.items) {
    if (i.role == role && i.shape == shape) return &i;
  }
  return nullptr;
}

bool has_label(const Diagram& d, std::string_view text) {
  for (const Item& i : d.items) {
    if (i.shape == Shape::label && d.text_of(i) == text) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("picture: the miss is drawn from the roll-out square to the course", "[picture]") {
  const Drawn d = drawn(Scenario{});
  const Item* const line = first_of(d.diagram, Role::miss, Shape::polyline);
  REQUIRE(line);
  const Vec2 a = d.diagram.points[line->first];
  const Vec2 b = d.diagram.points[line->first + 1];
  const Hold& hold = d.worked.setup.hold;
  CHECK_THAT(hold.cross_nm(b), WithinAbs(0.0, 1e-12));
  CHECK_THAT(hold.to_go_nm(a), WithinAbs(hold.to_go_nm(b), 1e-12));
  CHECK_THAT(length(a - b), WithinAbs(std::abs(d.worked.flown.rollout.cross_nm), 1e-12));
  CHECK(has_label(d.diagram, "0.7 NM past the course"));
  CHECK_THAT(d.worked.flown.rollout.cross_nm, WithinAbs(-0.7, 0.05));
}

TEST_CASE("picture: the flown line lies on the flown track", "[picture]") {
  const Drawn d = drawn(Scenario{});
  const Item* const line = first_of(d.diagram, Role::flown, Shape::polyline);
  REQUIRE(line);
  REQUIRE(line->count > 20);
  const Track& track = d.worked.flown.track;
  for (std::uint32_t k = 0; k < line->count; ++k) {
    const Vec2 p = d.diagram.points[line->first + k];
    double nearest = 1e9;
    for (double t = track.start_s(); t <= track.end_s(); t += 0.05) {
      nearest = std::fmin(nearest, length(track.position_at(t) - p));
    }
    CHECK(nearest < 0.002);
  }
  CHECK(d.diagram.points[line->first + line->count - 1] ==
        track.position_at(d.worked.flown.rollout.at_s));
}

TEST_CASE("picture: one mark for every ten seconds up to the roll-out", "[picture]") {
  const Drawn d = drawn(Scenario{});
  int marks = 0;
  for (const Item& i : d.diagram.items) marks += i.role == Role::tick && i.shape == Shape::ring;
  CHECK(marks == static_cast<int>((d.worked.flown.rollout.at_s - 1.0) / 10.0));
}

TEST_CASE("picture: where nothing can be flown no plan is drawn or named", "[picture]") {
  const Drawn d = drawn(parse_link("wind=187/150&arrive=72").scenario);
  REQUIRE(d.worked.flown.track.size() == 0);
  for (const Role role : {Role::no_correction, Role::rule, Role::exact, Role::own}) {
    for (const Item& i : d.diagram.items) CHECK(i.role != role);
  }
}

TEST_CASE("picture: layers switch what they name", "[picture]") {
  Drawn d = drawn(Scenario{});
  struct Row {
    const char* layer;
    Role role;
  };
  for (const Row& row :
       {Row{"no_correction", Role::no_correction}, Row{"exact", Role::exact},
        Row{"air_path", Role::air_path}, Row{"pattern", Role::pattern}, Row{"marks", Role::tick},
        Row{"streaks", Role::streak}, Row{"miss", Role::miss}}) {
    CAPTURE(row.layer);
    const auto shape = row.role == Role::tick ? Shape::ring : Shape::polyline;
    draw_picture(d.worked, d.options, d.diagram);
    CHECK(first_of(d.diagram, row.role, shape));
    bool* const on = layer_by_name(d.options.layers, row.layer);
    REQUIRE(on);
    *on = false;
    draw_picture(d.worked, d.options, d.diagram);
    CHECK_FALSE(first_of(d.diagram, row.role, shape));
    *on = true;
  }
  CHECK(layer_by_name(d.options.layers, "nonsense") == nullptr);
}

TEST_CASE("picture: fitted, the whole flight and every handle are in view", "[picture][property]") {
  test::Random r(41);
  for (int k = 0; k < 400; ++k) {
    Scenario s = test::calm_scenario(r);
    s.laps = 0;
    const double w = r.between(300.0, 1200.0);
    const double h = r.between(280.0, 900.0);
    const Drawn d = drawn(s, w, h);
    CAPTURE(test::named(s), w, h);
    const Track& track = d.worked.flown.track;
    for (double t = track.start_s(); t <= track.end_s(); t += 5.0) {
      const Vec2 p = d.options.view.to_px(track.position_at(t));
      REQUIRE(p.x > 0.0);
      REQUIRE(p.y > 0.0);
      REQUIRE(p.x < w);
      REQUIRE(p.y < h);
    }
    for (const Handle handle : {Handle::wind, Handle::inbound, Handle::arrival, Handle::turns}) {
      const std::optional<Vec2> at = handle_at(d.worked, d.options, handle);
      REQUIRE(at);
      const Vec2 p = d.options.view.to_px(*at);
      CHECK(p.x > -1.0);
      CHECK(p.y > -1.0);
      CHECK(p.x < w + 1.0);
      CHECK(p.y < h + 1.0);
    }
  }
}

TEST_CASE("picture: the wind's dial reads back what it shows", "[picture][property]") {
  test::Random r(42);
  for (int k = 0; k < 2000; ++k) {
    Scenario s;
    s.wind_from_deg = r.stepped(1.0, 360.0, 1.0);
    s.wind_kt = r.stepped(1.0, 60.0, 1.0);
    WorkedCase c = work_out(s);
    PictureOptions o;
    o.view = fitted(c, 880.0, 640.0);
    o.wind_corner = r.below(4);
    const Vec2 px = o.view.to_px(handle_at(c, o, Handle::wind).value());
    const Wind w = dialled_wind(o, px, 123.0);
    CAPTURE(s.wind_from_deg, s.wind_kt);
    CHECK(w.speed_kt == s.wind_kt);
    CHECK(w.from_deg == s.wind_from_deg);
  }
}

TEST_CASE("picture: any scenario draws finite marks, a bounded count of them",
          "[picture][property]") {
  test::Random r(43);
  for (int k = 0; k < 3000; ++k) {
    const Scenario s = test::random_scenario(r);
    const Drawn d = drawn(s, r.between(1.0, 1500.0), r.between(1.0, 1000.0));
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

TEST_CASE("svg: well formed, no scripts, no styles, every mark present", "[svg]") {
  const Drawn d = drawn(Scenario{});
  const std::string svg = write_svg(d.diagram, Theme::light, "a <b> & \"c\"");
  CHECK(svg.rfind("<svg ", 0) == 0);
  CHECK(svg.find("<title>a &lt;b&gt; &amp; &quot;c&quot;</title>") != std::string::npos);
  for (const char* bad : {"<script", "style=", "href", "nan", "inf"}) {
    CAPTURE(bad);
    CHECK(svg.find(bad) == std::string::npos);
  }
  // Each tag is closed where it is opened, or has an end tag.
  int depth = 0;
  for (std::size_t at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
    const std::size_t end = svg.find('>', at);
    REQUIRE(end != std::string::npos);
    if (svg[at + 1] == '/') {
      --depth;
    } else if (svg[end - 1] != '/') {
      ++depth;
    }
    REQUIRE(depth >= 0);
  }
  CHECK(depth == 0);
  std::size_t marks = 0;
  for (std::size_t at = svg.find(" class=\"r-"); at != std::string::npos;
       at = svg.find(" class=\"r-", at + 1)) {
    ++marks;
  }
  CHECK(marks > d.diagram.items.size());  // the paper, and arrows are two elements
}

TEST_CASE("svg: the style sheet has a rule for every role in every theme", "[svg]") {
  const std::string css = theme_css();
  for (int i = 0; i < kRoleCount; ++i) {
    const std::string rule = std::string(".r-") + role_name(static_cast<Role>(i)) + ".s-line";
    int found = 0;
    for (std::size_t at = css.find(rule); at != std::string::npos; at = css.find(rule, at + 1))
      ++found;
    CAPTURE(rule);
    CHECK(found == 6);  // the sample, light, dark by choice, dark by preference, two forced
  }
}

TEST_CASE("picture: the track is found where it is pointed at, and nowhere else", "[picture]") {
  const Drawn d = drawn(Scenario{});
  const Track& track = d.worked.flown.track;
  const Viewport& view = d.options.view;
  // Between whole seconds on either side, and the ends.
  for (const double t : {track.start_s(), 37.3, 81.7, 140.4, track.end_s()}) {
    const std::optional<double> found =
        nearest_time(d.worked, view, view.to_px(track.position_at(t)), 12.0);
    REQUIRE(found);
    // Where the track crosses itself another time may be as near.
    CHECK_THAT(length(view.to_px(track.position_at(*found)) - view.to_px(track.position_at(t))),
               WithinAbs(0.0, 0.1));
    // Beside it, by less than the reach and by more.
    const Vec2 v = track.velocity_kt_at(t);
    const Vec2 across = view.to_px({v.y, -v.x}) - view.to_px({0.0, 0.0});
    for (const double px : {6.0, 18.0}) {
      const Vec2 at = view.to_px(track.position_at(t)) + across * (px / length(across));
      const std::optional<double> near = nearest_time(d.worked, view, at, 12.0);
      if (near) CHECK(length(view.to_px(track.position_at(*near)) - at) <= 12.0);
      if (px < 12.0) CHECK(near);
    }
  }
  CHECK_FALSE(nearest_time(d.worked, view, {-500.0, -500.0}, 12.0));
  CHECK_FALSE(nearest_time(WorkedCase{}, view, {0.0, 0.0}, 1e9));
}

TEST_CASE("picture: what is pointed at says its time, heading, groundspeed and side", "[picture]") {
  Drawn d = drawn(Scenario{});
  CHECK_FALSE(first_of(d.diagram, Role::probe, Shape::ring));
  const Track& track = d.worked.flown.track;
  for (const double t : {30.0, 100.0, 170.0}) {
    d.options.probe_s = t;
    draw_picture(d.worked, d.options, d.diagram);
    const Item* const ring = first_of(d.diagram, Role::probe, Shape::ring);
    REQUIRE(ring);
    CHECK(length(d.diagram.points[ring->first] - track.position_at(t)) == 0.0);
    const double cross = d.worked.setup.cross_nm(track.position_at(t));
    CHECK(has_label(
        d.diagram,
        phrase("core.pic.probe", {{"time", minutes(t)},
                                  {"heading", degrees_3(track.heading_at(t))},
                                  {"groundspeed", fixed(length(track.velocity_kt_at(t)), 0)}})));
    CHECK(has_label(
        d.diagram,
        phrase("core.pic.probe_cross",
               {{"nm", fixed(std::abs(cross), 1)},
                {"side", std::string(word(cross >= 0.0 ? "core.pic.side.holding"
                                                       : "core.pic.side.nonholding"))}})));
  }
  d.options.flight = false;
  draw_picture(d.worked, d.options, d.diagram);
  CHECK_FALSE(first_of(d.diagram, Role::probe, Shape::ring));
}

TEST_CASE("picture: events of the entry are marked, what has a mark of its own is not",
          "[picture]") {
  for (const EntryKind entry : {EntryKind::offset, EntryKind::parallel, EntryKind::direct}) {
    Scenario s;
    s.entry = entry;
    const Drawn d = drawn(s);
    std::vector<Vec2> wanted;
    for (int i = 0; i < d.worked.flown.event_count; ++i) {
      const Event& e = d.worked.flown.events[static_cast<unsigned>(i)];
      const bool own_mark = e.kind == EventKind::arrival || e.kind == EventKind::fix ||
                            e.kind == EventKind::level || e.kind == EventKind::roll_out;
      if (!own_mark && e.lap == 0) wanted.push_back(e.at);
    }
    REQUIRE_FALSE(wanted.empty());
    std::size_t marked = 0;
    for (const Item& i : d.diagram.items) {
      if (i.role != Role::event || i.shape != Shape::disc) continue;
      REQUIRE(marked < wanted.size());
      CHECK(length(d.diagram.points[i.first] - wanted[marked]) == 0.0);
      ++marked;
    }
    CHECK(marked == wanted.size());
  }
}

TEST_CASE("picture: the wind's words stay inside the picture in each corner", "[picture]") {
  Scenario s;
  s.wind_kt = 40.0;
  for (const double from_deg : {0.0, 45.0, 90.0, 180.0, 315.0}) {
    s.wind_from_deg = from_deg;
    Drawn d = drawn(s);
    for (int corner = 0; corner < 4; ++corner) {
      CAPTURE(from_deg, corner);
      d.options.wind_corner = corner;
      draw_picture(d.worked, d.options, d.diagram);
      const Item* const words = first_of(d.diagram, Role::wind, Shape::label);
      const Item* const arrow = first_of(d.diagram, Role::wind, Shape::arrow);
      REQUIRE(words);
      REQUIRE(arrow);
      const Viewport& view = d.options.view;
      const Vec2 at = view.to_px(d.diagram.points[words->first]);
      CHECK((at.x > 0.0 && at.x < view.width_px && at.y > 8.0 && at.y < view.height_px - 8.0));
      // Toward the middle of the picture from the arrow, as the corner is.
      const Vec2 tail = view.to_px(d.diagram.points[arrow->first]);
      const Vec2 head = view.to_px(d.diagram.points[arrow->first + 1]);
      const double middle = 0.5 * (tail.y + head.y);
      CHECK((at.y < middle) == (corner >= 2));
      CHECK(std::abs(at.y - middle) > 0.5 * std::abs(tail.y - head.y));
    }
  }
}

TEST_CASE("svg: positions are written in pixels, to a hundredth", "[svg]") {
  Diagram d;
  d.view = {{0.0, 0.0}, 100.0, 800.0, 600.0};
  DiagramWriter w(d);
  w.line(Role::rule, d.view.to_nm({123.45, 67.5}), d.view.to_nm({300.0, 4.05}));
  w.line(Role::rule, d.view.to_nm({-12.3, 0.07}), d.view.to_nm({1234.0, 0.0}));
  const std::string svg = write_svg(d, Theme::light, "");
  for (const char* part : {"123.45", "67.5", "300", "4.05", "-12.3", "0.07", "1234"}) {
    CAPTURE(part, svg);
    const std::size_t at = svg.find(part);
    REQUIRE(at != std::string::npos);
    const char after = svg[at + std::string(part).size()];
    CHECK_FALSE((after == '.' || (after >= '0' && after <= '9')));
  }
}
