// A second flight beside the first, and a picture that keeps its answers to itself.
#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <string>

#include "core/explain.h"
#include "core/svg.h"
#include "tests/scenarios.h"
#include "tests/tally.h"
#include "web/session.h"

using namespace core;
using Catch::Matchers::WithinAbs;

namespace {

int count(const Diagram& d, Role role) {
  int n = 0;
  for (const Item& i : d.items) n += i.role == role ? 1 : 0;
  return n;
}

bool says(const Diagram& d, std::string_view text) {
  return std::string_view(d.text.data(), d.text.size()).find(text) != std::string_view::npos;
}

web::Session& opened(web::Session& s, std::string_view link) {
  s.resize(900.0, 600.0);
  s.open(link);
  return s;
}

}  // namespace

TEST_CASE("beside: the second flight is that of its own scenario", "[picture][beside]") {
  web::Session s;
  opened(s, "wind=160/24");
  CHECK(count(s.diagram(), Role::own) == 0);
  CHECK(s.beside("wind=160/24&heading=60", "yours") == web::kPicture);
  const Diagram& d = s.diagram();
  REQUIRE(count(d, Role::own) > 0);
  CHECK(says(d, "yours"));

  const WorkedCase other = work_out(parse_link("wind=160/24&heading=60").scenario);
  CHECK(says(d, headline(other)));
  const Item* track = nullptr;
  for (const Item& i : d.items) {
    if (i.role == Role::own && i.shape == Shape::polyline) track = &i;
  }
  REQUIRE(track);
  const Vec2 end = d.points[track->first + track->count - 1];
  CHECK_THAT(length(end - other.flown.rollout.at), WithinAbs(0.0, 1e-6));

  CHECK(s.beside("", "") == web::kPicture);
  CHECK(count(s.diagram(), Role::own) == 0);
  CHECK(s.beside("", "") == web::kNothing);
}

TEST_CASE("beside: another hold brings its pattern along, and laps are drawn to their end",
          "[picture][beside]") {
  web::Session s;
  opened(s, "laps=1");
  s.beside("laps=1&multiple=1", "yours");
  CHECK(count(s.diagram(), Role::own) == 4);  // track, roll-out, two lines of the label
  s.beside("inbound=58", "yours");
  CHECK(count(s.diagram(), Role::own) == 5);
}

TEST_CASE("beside: the view takes it in", "[picture][beside]") {
  test::Random r(4501);
  test::Tally tally;
  web::Session s;
  for (int i = 0; i < 200; ++i) {
    const Scenario a = test::random_scenario(r);
    const Scenario b = test::random_scenario(r);
    opened(s, write_link(a));
    s.beside(write_link(b), "yours");
    const WorkedCase other = work_out(b);
    const Viewport& view = s.diagram().view;
    if (!other.flown.rollout.exists || view.px_per_nm <= 1.0) continue;
    const Vec2 px = view.to_px(other.flown.rollout.at);
    tally.check(px.x >= 0.0 && px.x <= 900.0 && px.y >= 0.0 && px.y <= 600.0,
                [&] { return write_link(a) + " beside " + write_link(b); });
  }
  tally.settle(100);
}

TEST_CASE("asked: nothing beyond the fix is drawn or said", "[picture][beside]") {
  test::Random r(4502);
  test::Tally tally;
  web::Session s;
  for (int i = 0; i < 200; ++i) {
    const Scenario scene = test::random_scenario(r);
    const auto say = [&] { return write_link(scene); };
    opened(s, write_link(scene));
    s.show_flight(false);
    s.show_handles(false);
    const Diagram& d = s.diagram();
    for (const Role role : {Role::miss, Role::exact, Role::no_correction, Role::rule, Role::after,
                            Role::tick, Role::lap, Role::air_path, Role::handle}) {
      tally.check(count(d, role) == 0, say);
    }
    for (const Item& item : d.items) {
      if (item.role != Role::flown) continue;
      const Vec2 end = d.points[item.first + item.count - 1];
      tally.check(length(end) < 1e-9, say);
    }
    const std::string summary = picture_summary(s.worked(), false);
    tally.check(s.report().find("\"summary\":\"" + summary + "\"") != std::string::npos, say);
    tally.check(!s.handle_px(Handle::wind), say);
    s.show_flight(true);
    s.show_handles(true);
    tally.check(s.handle_px(Handle::wind).has_value(), say);
  }
  tally.settle(2000);
}

TEST_CASE("grown: a flight is drawn as far as the clock, and told at its end",
          "[picture][beside]") {
  web::Session s;
  const auto furthest_s = [&](Role role) {
    const Diagram& d = s.diagram();
    const core::Track& track = s.worked().flown.track;
    double last = -1e9;
    for (const Item& item : d.items) {
      if (item.role != role || item.shape != Shape::polyline || item.count == 0) continue;
      const Vec2 end = d.points[item.first + item.count - 1];
      for (double t = track.start_s(); t <= track.end_s(); t += 0.5) {
        if (length(track.position_at(t) - end) < 1e-6) last = std::max(last, t);
      }
    }
    return last;
  };
  opened(s, "wind=310/30");
  const double told_s = s.worked().flown.rollout.at_s;
  s.beside("wind=310/30&heading=090&time=1:10", "yours");
  s.seek(0.0);
  s.grow_flight();
  for (const double t : {-5.0, 20.0, 61.5}) {
    s.seek(t);
    CHECK(furthest_s(Role::flown) == t);
    for (const Role role : {Role::miss, Role::tick, Role::event})
      CHECK(count(s.diagram(), role) == 0);
  }
  // Told when both are flown, and so even if the clock is then put back.
  s.seek(told_s + 60.0);
  CHECK(count(s.diagram(), Role::miss) > 0);
  s.seek(20.0);
  CHECK(count(s.diagram(), Role::miss) > 0);
  CHECK(count(s.diagram(), Role::tick) > 0);
  // As is another scene.
  s.seek(0.0);
  s.grow_flight();
  CHECK(count(s.diagram(), Role::miss) == 0);
  opened(s, "wind=160/20");
  CHECK(count(s.diagram(), Role::miss) > 0);
}

TEST_CASE("asked: without the miss the flight is drawn, and nothing says how it ends",
          "[picture][beside]") {
  web::Session s;
  s.resize(800.0, 600.0);
  opened(s, "wind=310/25");
  const std::string told = headline(s.worked());
  REQUIRE(s.report().find(told) != std::string::npos);
  CHECK(s.layer("miss", false) == (web::kScenario | web::kPicture));
  CHECK(count(s.diagram(), Role::miss) == 0);
  CHECK(count(s.diagram(), Role::flown) > 0);
  const std::string summary = "\"summary\":\"" + picture_summary(s.worked(), false) + "\"";
  CHECK(s.report().find(summary) != std::string::npos);
  CHECK(s.svg().find(told) == std::string::npos);
  CHECK(s.layer("miss", true) == (web::kScenario | web::kPicture));
  CHECK(s.svg().find(told) != std::string::npos);
}

TEST_CASE("asked: the text alternative tells the scene and not its outcome", "[picture][beside]") {
  const WorkedCase c = work_out(Scenario{});
  CHECK(picture_summary(c).find(headline(c)) != std::string::npos);
  CHECK(picture_summary(c, false).find(headline(c)) == std::string::npos);
  CHECK(picture_summary(c).rfind(picture_summary(c, false), 0) == 0);
}
