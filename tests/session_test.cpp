// The session: history, clock, gestures. All by the same calls that the page makes.
#include "web/session.h"

#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>
#include <string>

using Catch::Matchers::WithinAbs;
using core::Handle;
using web::Phase;
using web::Session;

namespace {

/// A session with a picture of a usual size.
struct Opened {
  Session s;
  Opened() { s.resize(880.0, 640.0); }
};

void drag(Session& s, Handle handle, double dx, double dy) {
  const core::Vec2 at = s.handle_px(handle).value();
  s.pointer(Phase::down, 1, at.x, at.y, false);
  for (int i = 1; i <= 5; ++i) {
    s.pointer(Phase::move, 1, at.x + dx * i / 5.0, at.y + dy * i / 5.0, false);
  }
  s.pointer(Phase::up, 1, at.x + dx, at.y + dy, false);
}

}  // namespace

TEST_CASE("session: a field's change can be undone and redone", "[session]") {
  Opened o;
  CHECK_FALSE(o.s.can_undo());
  CHECK((o.s.set("wind", "010/30", false) & web::kScenario) != 0);
  CHECK(o.s.link() == "wind=10/30");
  CHECK(o.s.can_undo());
  o.s.undo();
  CHECK(o.s.link().empty());
  CHECK(o.s.can_redo());
  o.s.redo();
  CHECK(o.s.link() == "wind=10/30");
}

TEST_CASE("session: a visit to another scene leaves the person's history as it was", "[session]") {
  Opened o;
  o.s.set("wind", "010/30", false);
  o.s.set("wind", "020/30", false);
  o.s.undo();
  o.s.set("ias", "9999", false);
  const std::string before = o.s.report();
  CHECK(o.s.back() == web::kNothing);
  CHECK((o.s.visit("inbound=90&wind=1/1") & web::kScenario) != 0);
  o.s.visit("inbound=91");
  CHECK(o.s.link() == "inbound=91");
  CHECK_FALSE(o.s.can_undo());
  o.s.set("inbound", "92", false);
  CHECK((o.s.back() & web::kScenario) != 0);
  CHECK(o.s.link() == "wind=10/30");
  CHECK(o.s.report() == before);
  o.s.redo();
  CHECK(o.s.link() == "wind=20/30");
  o.s.undo();
  o.s.undo();
  CHECK(o.s.link().empty());
  CHECK_FALSE(o.s.can_undo());
}

TEST_CASE("session: a scene that is opened ends a visit", "[session]") {
  Opened o;
  o.s.visit("inbound=90");
  o.s.open("inbound=91");
  CHECK(o.s.back() == web::kNothing);
  CHECK(o.s.link() == "inbound=91");
}

TEST_CASE("session: typing one field is one step of the history", "[session]") {
  Opened o;
  for (const char* text : {"1/30", "10/30", "100/30"}) o.s.set("wind", text, true);
  o.s.set("wind", "100/30", false);
  o.s.set("wind", "110/30", false);
  CHECK(o.s.link() == "wind=110/30");
  o.s.undo();
  CHECK(o.s.link() == "wind=100/30");
  o.s.undo();
  CHECK(o.s.link().empty());
  CHECK_FALSE(o.s.can_undo());
}

TEST_CASE("session: a bad value changes nothing and is named until it is mended", "[session]") {
  Opened o;
  o.s.set("altitude", "9000", false);
  const std::string before = o.s.link();
  o.s.set("altitude", "99000", false);
  CHECK(o.s.link() == before);
  CHECK(o.s.report().find("99000") != std::string::npos);
  o.s.set("altitude", "8000", false);
  CHECK(o.s.report().find("99000") == std::string::npos);
}

TEST_CASE("session: reset goes back to the opening scene and can be undone", "[session]") {
  Opened o;
  o.s.set("turns", "right", false);
  o.s.reset();
  CHECK(o.s.link().empty());
  o.s.undo();
  CHECK(o.s.link() == "turns=right");
}

TEST_CASE("session: the history is bounded", "[session]") {
  Opened o;
  for (int i = 0; i < 1000; ++i) o.s.set("wind", std::to_string(1 + i % 359) + "/20", false);
  int steps = 0;
  while (o.s.can_undo() && steps < 1000) {
    o.s.undo();
    ++steps;
  }
  CHECK(steps == 199);
}

TEST_CASE("session: each handle sets its own quantity and no other", "[session][drag]") {
  SECTION("wind") {
    Opened o;
    drag(o.s, Handle::wind, 25.0, -10.0);
    const core::Scenario defaults;
    CHECK(o.s.scenario().wind_from_deg != defaults.wind_from_deg);
    CHECK(o.s.link().rfind("wind=", 0) == 0);
    CHECK(o.s.link().find('&') == std::string::npos);
    o.s.undo();
    CHECK(o.s.link().empty());
  }
  SECTION("inbound course") {
    Opened o;
    drag(o.s, Handle::inbound, 0.0, 90.0);
    CHECK(o.s.link().rfind("inbound=", 0) == 0);
    CHECK(o.s.link().find('&') == std::string::npos);
  }
  SECTION("turns, pulled over the course") {
    Opened o;
    const core::Vec2 at = o.s.handle_px(Handle::turns).value();
    const core::Vec2 fix = o.s.diagram().view.to_px({0.0, 0.0});
    drag(o.s, Handle::turns, 2.0 * (fix.x - at.x), 2.0 * (fix.y - at.y));
    CHECK(o.s.link() == "turns=right");
  }
  SECTION("turns, tapped") {
    Opened o;
    drag(o.s, Handle::turns, 1.0, 0.0);
    CHECK(o.s.link() == "turns=right");
    drag(o.s, Handle::turns, 0.0, 1.0);
    CHECK(o.s.link().empty());
    o.s.undo();
    CHECK(o.s.link() == "turns=right");
  }
  SECTION("arrival") {
    Opened o;
    drag(o.s, Handle::arrival, 0.0, 40.0);
    CHECK(o.s.link().rfind("arrive=", 0) == 0);
    CHECK(o.s.link().find('&') == std::string::npos);
  }
}

TEST_CASE("session: a dragged handle stays under the pointer", "[session][drag]") {
  Opened o;
  const core::Vec2 at = o.s.handle_px(Handle::wind).value();
  // Taken off its middle, so that the grip counts.
  o.s.pointer(Phase::down, 7, at.x + 5.0, at.y + 4.0, false);
  o.s.pointer(Phase::move, 7, at.x + 25.0, at.y + 24.0, false);
  const core::Vec2 now = o.s.handle_px(Handle::wind).value();
  // Whole degrees and knots move it in small steps.
  CHECK_THAT(now.x, WithinAbs(at.x + 20.0, 2.0));
  CHECK_THAT(now.y, WithinAbs(at.y + 20.0, 2.0));
  o.s.pointer(Phase::cancel, 7, 0.0, 0.0, false);
}

TEST_CASE("session: handles are at least 24 px for a mouse and 44 px for a finger", "[session]") {
  Opened o;
  for (const Handle h : {Handle::wind, Handle::inbound, Handle::arrival, Handle::turns}) {
    const core::Vec2 at = o.s.handle_px(h).value();
    CHECK(o.s.hit(at.x + 12.0, at.y, false) == h);
    CHECK(o.s.hit(at.x, at.y - 22.0, true) == h);
    CHECK(o.s.hit(at.x + 60.0, at.y + 60.0, true) != h);
  }
}

TEST_CASE("session: zoom keeps the point under the pointer", "[session][view]") {
  Opened o;
  const core::Viewport before = o.s.diagram().view;
  const core::Vec2 nm = before.to_nm({200.0, 150.0});
  o.s.zoom(200.0, 150.0, 1.7);
  const core::Vec2 px = o.s.diagram().view.to_px(nm);
  CHECK_THAT(px.x, WithinAbs(200.0, 1e-9));
  CHECK_THAT(px.y, WithinAbs(150.0, 1e-9));
  o.s.fit();
  CHECK(o.s.diagram().view.px_per_nm == before.px_per_nm);
}

TEST_CASE("session: two fingers zoom by their distance and move by their middle",
          "[session][view]") {
  Opened o;
  const core::Viewport before = o.s.diagram().view;
  o.s.pointer(Phase::down, 1, 400.0, 300.0, true);
  o.s.pointer(Phase::down, 2, 500.0, 300.0, true);
  o.s.pointer(Phase::move, 2, 600.0, 300.0, true);
  CHECK_THAT(o.s.diagram().view.px_per_nm, WithinAbs(2.0 * before.px_per_nm, 1e-9));
  o.s.pointer(Phase::up, 1, 400.0, 300.0, true);
  o.s.pointer(Phase::up, 2, 600.0, 300.0, true);
  CHECK(o.s.link().empty());  // no handle was moved by it
}

TEST_CASE("session: the clock never jumps, and stops at the end", "[session][clock]") {
  Opened o;
  o.s.play();
  CHECK_THAT(o.s.live().t_s, WithinAbs(-core::kArrivalShownS, 1e-12));
  o.s.speed(1.0);
  o.s.tick(3600.0);  // a tab hidden for an hour
  CHECK_THAT(o.s.live().t_s, WithinAbs(-core::kArrivalShownS + web::Playback::kMostStepS, 1e-12));
  o.s.speed(1000.0);
  CHECK(o.s.live().speed == web::Playback::kFastest);
  for (int i = 0; i < 1000; ++i) o.s.tick(0.1);
  CHECK(o.s.live().playing == 0.0);
  CHECK(o.s.live().t_s == o.s.live().end_s);
  o.s.play();
  CHECK(o.s.live().t_s == o.s.live().start_s);
}

TEST_CASE("session: stepping visits the events in order, both ways", "[session][clock]") {
  Opened o;
  o.s.seek(-1000.0);
  const core::Flight& f = o.s.worked().flown;
  for (int i = 1; i < f.event_count; ++i) {
    o.s.step(1);
    CHECK(o.s.live().t_s == f.events[static_cast<unsigned>(i)].at_s);
  }
  for (int i = f.event_count - 2; i >= 0; --i) {
    o.s.step(-1);
    CHECK(o.s.live().t_s == f.events[static_cast<unsigned>(i)].at_s);
  }
}

TEST_CASE("session: instruments agree with the track by finite differences", "[session][clock]") {
  Opened o;
  for (const double t : {-10.0, 20.0, 45.0, 90.0, 120.0, 170.0}) {
    o.s.seek(t - 0.01);
    const web::Live a = o.s.live();
    o.s.seek(t + 0.01);
    const web::Live b = o.s.live();
    o.s.seek(t);
    const web::Live now = o.s.live();
    const core::Vec2 v = core::Vec2{b.x_nm - a.x_nm, b.y_nm - a.y_nm} * (3600.0 / 0.02);
    CHECK_THAT(now.groundspeed_kt, WithinAbs(core::length(v), 1e-3));
    CHECK_THAT(core::wrap_180(now.track_deg - core::direction_of(v)), WithinAbs(0.0, 1e-3));
    CHECK_THAT(core::wrap_180(now.heading_deg + now.drift_deg - now.track_deg),
               WithinAbs(0.0, 1e-9));
  }
}

TEST_CASE("session: choosing an exact plan rolls out on course", "[session]") {
  Opened o;
  o.s.choose("exact");
  CHECK(o.s.scenario().heading_deg.has_value());
  // The link shows 0.01 deg and 0.1 s, so the roll-out is that close, no closer.
  CHECK(std::abs(o.s.worked().flown.rollout.cross_nm) < 0.005);
  CHECK(std::abs(o.s.worked().flown.rollout.inbound_s - 60.0) < 0.5);
  o.s.choose("track-30");
  CHECK(o.s.link() == "rule=track-30");
  CHECK(o.s.choose("nonsense") == web::kNothing);
}

TEST_CASE("session: hostile pointers do nothing bad", "[session]") {
  Opened o;
  const double bad[] = {std::nan(""), 1e308, -1e308, 0.0};
  for (const double x : bad) {
    for (const double y : bad) {
      for (const Phase p : {Phase::down, Phase::move, Phase::up, Phase::cancel, Phase::leave}) {
        o.s.pointer(p, 3, x, y, true);
      }
      o.s.zoom(x, y, x);
      o.s.resize(x, y);
      o.s.seek(x);
      o.s.tick(x);
      o.s.speed(y);
    }
  }
  const core::Diagram& d = o.s.diagram();
  CHECK(d.items.size() < 5000);
  CHECK(std::isfinite(o.s.live().t_s));
  // And the view stays where there is something to see.
  CHECK(std::abs(d.view.centre.x) <= 5000.0);
  CHECK(std::abs(d.view.centre.y) <= 5000.0);
}

TEST_CASE("session: what is fixed is changed by no field, handle, plan, undo, reset or link",
          "[session][locks]") {
  Opened o;
  o.s.open("wind=310/22&turns=right");
  o.s.lock("wind turns none", "wind=310/22&turns=right");
  const auto fixed = [&] {
    CHECK(o.s.scenario().wind_from_deg == 310.0);
    CHECK(o.s.scenario().wind_kt == 22.0);
    CHECK(o.s.scenario().turns == core::Side::right);
  };
  CHECK(o.s.set("wind", "90/10", false) == web::kNothing);
  CHECK_FALSE(o.s.can_undo());
  CHECK_FALSE(o.s.handle_px(Handle::wind).has_value());
  CHECK_FALSE(o.s.handle_px(Handle::turns).has_value());
  REQUIRE(o.s.handle_px(Handle::inbound).has_value());
  drag(o.s, Handle::inbound, 30.0, 40.0);
  CHECK(o.s.scenario().inbound_course_deg != 238.0);
  fixed();
  o.s.undo();
  fixed();
  o.s.reset();
  CHECK(o.s.scenario().inbound_course_deg == 238.0);
  fixed();
  o.s.open("wind=10/40&inbound=90&turns=left");
  CHECK(o.s.scenario().inbound_course_deg == 90.0);
  fixed();
  // Scenes of a lesson are not the person's.
  o.s.visit("wind=10/40&turns=left");
  CHECK(o.s.scenario().wind_from_deg == 10.0);
  CHECK(o.s.handle_px(Handle::wind).has_value());
  o.s.back();
  fixed();
  o.s.lock("", "");
  o.s.set("wind", "90/10", false);
  CHECK(o.s.scenario().wind_kt == 10.0);
}

TEST_CASE("session: a plan is flown whole or not at all where part of it is fixed",
          "[session][locks]") {
  Opened o;
  o.s.lock("time", "");
  CHECK(o.s.choose("exact") == web::kNothing);
  CHECK(o.s.link().empty());
  CHECK(o.s.choose("still-air") != web::kNothing);
}

TEST_CASE("session: a fixed airspeed and a fixed bank stand beside other keys",
          "[session][locks]") {
  Opened o;
  o.s.open("tas=120&bank=20");
  o.s.lock("ias tas bank rule", "tas=120&bank=20");
  o.s.set("ias", "90", false);
  CHECK(o.s.scenario().speed_is_tas);
  CHECK(o.s.scenario().speed_kt == 120.0);
  // The other book would bring its own rule and bank.
  o.s.set("book", "icao", false);
  CHECK(o.s.scenario().book == core::Rulebook::icao);
  CHECK(o.s.scenario().bank_limit_deg == 20.0);
  CHECK(o.s.scenario().rule == core::HeadingRule::drift_once);
  // Too high to fly 120 kt TAS is refused or held, never another speed.
  o.s.open("ias=340&altitude=45000");
  CHECK(o.s.scenario().speed_kt == 120.0);
}

TEST_CASE("session: a fixed handle is drawn without its grip", "[session][locks]") {
  Opened o;
  const auto rings = [&] {
    int n = 0;
    for (const core::Item& item : o.s.diagram().items) {
      n += item.shape == core::Shape::ring &&
                   (item.role == core::Role::wind || item.role == core::Role::handle)
               ? 1
               : 0;
    }
    return n;
  };
  const int all = rings();
  o.s.lock("wind inbound", "");
  CHECK(rings() == all - 2);
}
