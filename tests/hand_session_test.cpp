// Flying by hand through the session: its clock, what its picture shows and hides, and that
// the scene is as it was afterwards.
#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>
#include <string>

#include "core/words.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"
#include "web/session.h"

using Catch::Matchers::WithinAbs;
using core::Role;
using web::Session;

namespace {

struct Opened {
  Session s;
  explicit Opened(const char* link = "") {
    s.resize(880.0, 640.0);
    s.open(link);
  }
};

/// Lets simulated time pass in frames.
void pass(Session& s, double seconds) {
  const double until = s.live().t_s + seconds;
  while (s.live().t_s < until - 1e-9 && s.live().playing == 1.0) {
    s.tick(std::fmin(0.05, (until - s.live().t_s) / s.live().speed));
  }
}

int marks(Session& s, Role role) {
  int count = 0;
  for (const core::Item& item : s.diagram().items) count += item.role == role ? 1 : 0;
  return count;
}

bool says(Session& s, const std::string& part) {
  const core::Diagram& d = s.diagram();
  for (const core::Item& item : d.items) {
    if (d.text_of(item).find(part) != std::string::npos) return true;
  }
  return false;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// An entry, as the opening scene's exact plan would have it within a degree.
void fly_entry(Session& s) {
  s.fly_start({});
  s.speed(8.0);
  s.play();
  pass(s, 60.0);
  s.fly_clock();
  s.fly_bug(118.0, 0);
  pass(s, 62.0);
  s.fly_turn(-1);
  pass(s, 10.0);
  s.fly_bug(230.0, 0);
  pass(s, 120.0);
  s.fly_end();
}

}  // namespace

TEST_CASE("hand session: the clock stands until it is let go, and goes by its speed",
          "[session][hand]") {
  Opened o;
  CHECK(has(o.s.fly_state(), "\"off\""));
  CHECK((o.s.fly_start({}) & web::kPicture) != 0);
  CHECK(o.s.live().t_s == -60.0);
  CHECK(o.s.live().playing == 0.0);
  CHECK(o.s.tick(0.05) == web::kNothing);
  o.s.play();
  o.s.tick(0.05);
  CHECK_THAT(o.s.live().t_s, WithinAbs(-59.95, 1e-9));
  // A hidden tab comes back: a tenth of a second counts.
  o.s.tick(3600.0);
  CHECK_THAT(o.s.live().t_s, WithinAbs(-59.85, 1e-9));
  o.s.speed(8.0);
  o.s.tick(0.1);
  CHECK_THAT(o.s.live().t_s, WithinAbs(-59.05, 1e-9));
  o.s.speed(30.0);
  CHECK(o.s.live().speed == 8.0);
  o.s.pause();
  CHECK(o.s.tick(0.1) == web::kNothing);
  // What is flown is flown.
  CHECK(o.s.seek(100.0) == web::kNothing);
  CHECK(o.s.step(1) == web::kNothing);
  CHECK_THAT(o.s.live().t_s, WithinAbs(-59.05, 1e-9));
}

TEST_CASE("hand session: commands act at the clock's time, also while it stands",
          "[session][hand]") {
  Opened o;
  o.s.fly_start({});
  o.s.play();
  o.s.speed(8.0);
  pass(o.s, 60.0);
  o.s.pause();
  const double before = o.s.live().heading_deg;
  CHECK(o.s.fly_bug(100.0, 0) != web::kNothing);
  CHECK_THAT(o.s.live().heading_deg, WithinAbs(before, 1e-9));
  o.s.play();
  pass(o.s, 30.0);
  CHECK(o.s.live().heading_deg == 100.0);
  CHECK(o.s.fly_bug(std::nan(""), 0) == web::kNothing);
  o.s.fly_turn(1);
  pass(o.s, 5.0);
  CHECK_THAT(o.s.live().heading_deg, WithinAbs(115.0, 1e-6));
  o.s.fly_level();
  pass(o.s, 5.0);
  CHECK_THAT(o.s.live().heading_deg, WithinAbs(115.0, 1e-6));
  o.s.fly_clock();
  pass(o.s, 7.0);
  CHECK(has(o.s.fly_state(), "\"stopwatch_s\":7"));
  CHECK(test::JsonCheck(o.s.fly_state()).fault().empty());
}

TEST_CASE("hand session: the picture has the flight alone, and then the exact plan",
          "[session][hand][picture]") {
  Opened o;
  o.s.fly_start({});
  o.s.play();
  o.s.speed(8.0);
  pass(o.s, 90.0);
  CHECK(marks(o.s, Role::flown) == 1);
  CHECK(marks(o.s, Role::aircraft) == 1);
  CHECK(marks(o.s, Role::wind) > 0);
  CHECK(marks(o.s, Role::streak) > 0);
  for (const Role hidden : {Role::exact, Role::no_correction, Role::rule, Role::miss, Role::handle,
                            Role::after, Role::air_path}) {
    CHECK(marks(o.s, hidden) == 0);
  }
  for (const core::Handle h : {core::Handle::wind, core::Handle::inbound, core::Handle::arrival}) {
    CHECK_FALSE(o.s.handle_px(h).has_value());
  }
  CHECK(o.s.hit(440.0, 320.0, true) == core::Handle::none);
  fly_entry(o.s);
  CHECK(marks(o.s, Role::exact) >= 2);
  CHECK(marks(o.s, Role::miss) > 0);
  CHECK(says(o.s, "you 118°"));
  CHECK(says(o.s, "exact "));
  CHECK(has(o.s.svg(), "Flown by hand"));
}

TEST_CASE("hand session: a wind that is not known is not to be seen", "[session][hand][picture]") {
  Opened o;
  o.s.fly_start({false, std::nullopt});
  o.s.play();
  pass(o.s, 3.0);
  CHECK(marks(o.s, Role::wind) == 0);
  CHECK(marks(o.s, Role::streak) == 0);
  CHECK(marks(o.s, Role::ground_track) == 0);
  CHECK(marks(o.s, Role::flown) == 1);
  CHECK(has(o.s.fly_state(), "\"wind\":null"));
  o.s.fly_end();
  CHECK(marks(o.s, Role::wind) > 0);
  CHECK(has(o.s.fly_state(), "\"from_deg\":160"));
}

TEST_CASE("hand session: a drawn wind is the same for a seed, and can be flown",
          "[session][hand][property]") {
  test::Tally tally;
  test::Random r(5401);
  int different = 0;
  for (int i = 0; i < 60; ++i) {
    Opened o(i % 2 ? "ias=60" : "wind=320/140&arrive=230&later=10/20");
    const auto seed = static_cast<std::uint32_t>(r.bits());
    const auto wind = [&] {
      o.s.fly_start({true, seed});
      o.s.fly_end();
      return o.s.fly_debrief();
    };
    const std::string once = wind();
    tally.check(once != "null" && once == wind(), [&] { return "seed " + std::to_string(seed); });
    tally.check(has(o.s.fly_link(), "wind=") && !has(o.s.fly_link(), "later="),
                [&] { return o.s.fly_link(); });
    different += has(once, "\"from_deg\":160,") ? 0 : 1;
    tally.check(o.s.link() == (i % 2 ? "ias=60" : "wind=320/140&arrive=230&later=10/20"),
                [&] { return std::string("the scene is left alone"); });
  }
  tally.settle(150);
  CHECK(different > 40);
}

TEST_CASE("hand session: where nothing can be flown it says why", "[session][hand]") {
  Opened o("wind=320/120&arrive=230");
  CHECK(o.s.fly_start({}) == web::kNothing);
  CHECK(has(o.s.fly_state(), "\"why\":\""));
  CHECK(o.s.fly_bug(90.0, 0) == web::kNothing);
  CHECK(o.s.fly_end() == web::kNothing);
  CHECK(o.s.fly_leave() == web::kNothing);
  CHECK(o.s.fly_debrief() == "null");
}

TEST_CASE("hand session: the debrief compares with the scene, and its link flies it",
          "[session][hand]") {
  Opened o;
  fly_entry(o.s);
  const std::string debrief = o.s.fly_debrief();
  CHECK(test::JsonCheck(debrief).fault().empty());
  CHECK(has(debrief, "\"kind\":\"offset\""));
  CHECK(has(debrief, "\"acceptable\":true"));
  CHECK(has(o.s.fly_link(), "heading=118"));
  CHECK(has(o.s.fly_link(), "time=1:02"));
  // Commands are over; the flight can be looked at.
  CHECK(o.s.fly_bug(90.0, 0) == web::kNothing);
  CHECK(o.s.seek(30.0) != web::kNothing);
  CHECK(o.s.live().t_s == 30.0);
  CHECK_THAT(o.s.live().end_s, WithinAbs(192.0, 0.2));
  // The planned pilot with these numbers rolls out where the hand did, if it turned alike.
  Opened planned(o.s.fly_link().c_str());
  const core::Rollout& r = planned.s.worked().flown.rollout;
  CHECK(has(debrief, "\"lines\""));
  CHECK(r.exists);
}

TEST_CASE("hand session: leaving brings back scene, clock and view", "[session][hand]") {
  Opened o;
  o.s.seek(42.0);
  o.s.zoom(300.0, 200.0, 1.5);
  const core::Viewport before = o.s.diagram().view;
  o.s.fly_start({});
  CHECK(o.s.diagram().view.px_per_nm != before.px_per_nm);
  o.s.play();
  pass(o.s, 10.0);
  o.s.fly_start({});  // again, in the middle of it
  CHECK(o.s.live().t_s == -60.0);
  o.s.fly_leave();
  CHECK(o.s.live().t_s == 42.0);
  CHECK(o.s.diagram().view.px_per_nm == before.px_per_nm);
  CHECK(o.s.diagram().view.centre == before.centre);
  CHECK(o.s.handle_px(core::Handle::wind).has_value());
  CHECK_FALSE(o.s.can_undo());
}

TEST_CASE("hand session: another scene ends the flight", "[session][hand]") {
  Opened o;
  o.s.fly_start({});
  o.s.play();
  o.s.set("wind", "200/20", false);
  CHECK(has(o.s.fly_state(), "\"off\""));
  o.s.fly_start({});
  o.s.open("inbound=90");
  CHECK(has(o.s.fly_state(), "\"off\""));
  CHECK(o.s.live().playing == 0.0);
}

TEST_CASE("hand session: the view widens in steps, and only where it must", "[session][hand]") {
  Opened o;
  o.s.fly_start({});
  o.s.speed(8.0);
  o.s.play();
  const double at_first = o.s.diagram().view.px_per_nm;
  int steps = 0;
  double last = at_first;
  int frames = 0;
  while (o.s.live().t_s < 900.0) {
    o.s.tick(0.1);
    ++frames;
    const core::Viewport& v = o.s.diagram().view;
    const core::Vec2 p = v.to_px({o.s.live().x_nm, o.s.live().y_nm});
    CHECK((p.x >= 0.0 && p.y >= 0.0 && p.x <= v.width_px && p.y <= v.height_px));
    if (v.px_per_nm != last) ++steps;
    last = v.px_per_nm;
  }
  CHECK(frames > 1000);
  CHECK(steps > 0);
  CHECK(steps < 12);
  // Moved by hand, it stays.
  Opened held;
  held.s.fly_start({});
  held.s.zoom(440.0, 320.0, 2.0);
  const core::Viewport mine = held.s.diagram().view;
  held.s.speed(8.0);
  held.s.play();
  pass(held.s, 300.0);
  CHECK(held.s.diagram().view.px_per_nm == mine.px_per_nm);
  held.s.fit();
  CHECK(held.s.diagram().view.px_per_nm != mine.px_per_nm);
}

TEST_CASE("hand session: an entry and a lap stay in the first view", "[session][hand]") {
  Opened o;
  o.s.fly_start({});
  const double at_first = o.s.diagram().view.px_per_nm;
  fly_entry(o.s);
  CHECK(o.s.diagram().view.px_per_nm == at_first);
}

TEST_CASE("hand session: anything in any order leaves a session that answers",
          "[session][hand][property]") {
  test::Random r(5402);
  test::Tally tally;
  for (int i = 0; i < 12; ++i) {
    Opened o(i % 3 ? "roll=4&later=300/20" : "");
    for (int k = 0; k < 150; ++k) {
      switch (r.below(14)) {
        case 0:
          o.s.fly_start(
              {r.chance(0.5), r.chance(0.5) ? std::optional<std::uint32_t>(7U) : std::nullopt});
          break;
        case 1:
          o.s.fly_bug(r.chance(0.1) ? std::nan("") : r.between(-400.0, 800.0), r.below(3) - 1);
          break;
        case 2:
          o.s.fly_turn(r.chance(0.5) ? -1 : 1);
          break;
        case 3:
          o.s.fly_level();
          break;
        case 4:
          o.s.fly_clock();
          break;
        case 5:
          if (r.chance(0.3)) o.s.fly_end();
          break;
        case 6:
          if (r.chance(0.2)) o.s.fly_leave();
          break;
        case 7:
          o.s.speed(r.between(-1.0, 40.0));
          break;
        case 8:
          o.s.seek(r.between(-100.0, 5000.0));
          break;
        case 9:
          o.s.pointer(static_cast<web::Phase>(r.below(5)), 1, r.between(0.0, 880.0),
                      r.between(0.0, 640.0), r.chance(0.5));
          break;
        case 10:
          if (r.chance(0.1)) o.s.undo();
          o.s.resize(r.between(200.0, 1200.0), r.between(200.0, 900.0));
          break;
        default:
          o.s.play();
          for (int n = r.below(60); n > 0; --n) o.s.tick(r.between(0.0, 0.3));
      }
      const web::Live live = o.s.live();
      tally.check(std::isfinite(live.x_nm) && std::isfinite(live.heading_deg) &&
                      live.t_s >= live.start_s && live.t_s <= live.end_s,
                  [&] { return std::string("live"); });
      tally.check(test::JsonCheck(o.s.fly_state()).fault().empty(),
                  [&] { return o.s.fly_state(); });
      tally.check(test::JsonCheck(o.s.needle()).fault().empty(), [&] { return o.s.needle(); });
      if (k % 10 == 0) {
        const core::Diagram& d = o.s.diagram();
        bool whole = d.view.px_per_nm > 0.0;
        for (const core::Vec2 p : d.points)
          whole = whole && std::isfinite(p.x) && std::isfinite(p.y);
        tally.check(whole, [&] { return std::string("picture"); });
      }
    }
  }
  tally.settle(5000);
}
