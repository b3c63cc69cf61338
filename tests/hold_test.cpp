// Sectors all round the compass, by a second formulation, and the pattern's axes.
#include "core/hold.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// The same rule said another way: by the angle from the INBOUND course, 0 to 360.
EntryKind by_inbound_angle(const Hold& hold, double heading_deg) {
  double d = std::fmod(heading_deg - hold.inbound_course_deg + 720.0, 360.0);
  if (hold.turns == Side::left) d = std::fmod(360.0 - d, 360.0);
  if (d > 110.0 && d <= 180.0) return EntryKind::offset;
  if (d > 180.0 && d < 290.0) return EntryKind::parallel;
  return EntryKind::direct;
}

/// Smallest distance to one of the three boundaries, degrees.
double to_boundary(const Hold& hold, double heading_deg) {
  double least = 360.0;
  for (const double from_inbound : {110.0, 180.0, 290.0}) {
    const double at = hold.inbound_course_deg + sign_of(hold.turns) * from_inbound;
    least = std::fmin(least, std::abs(wrap_180(heading_deg - at)));
  }
  return least;
}

}  // namespace

TEST_CASE("sectors: two formulations agree", "[sectors][property]") {
  test::Random r(1201);
  test::Tally tally;
  int both = 0;
  for (int i = 0; i < 200000; ++i) {
    const double inbound = r.between(0.0, 360.0);
    const Hold hold{inbound, r.chance(0.5) ? Side::left : Side::right};
    const double heading = r.between(0.0, 360.0);
    const SectorChoice c = choose_sector(hold, heading);
    const double distance = to_boundary(hold, heading);
    const auto say = [&] {
      return std::to_string(inbound) + (hold.turns == Side::left ? " left " : " right ") +
             std::to_string(heading);
    };
    if (distance < 1e-9) continue;
    tally.check(c.kind == by_inbound_angle(hold, heading), say);
    tally.check(std::abs(c.boundary_deg - distance) < 1e-10, say);
    tally.check((c.also != c.kind) == (distance <= kSectorZoneDeg), say);
    // The other acceptable entry is the one that lies across that boundary.
    if (c.also != c.kind) {
      ++both;
      const double step = distance + 1e-7;
      const bool across = by_inbound_angle(hold, heading + step) == c.also ||
                          by_inbound_angle(hold, heading - step) == c.also;
      tally.check(across, say);
    }
  }
  CHECK(both > 10000);  // 30 of 360 degrees
  tally.settle(600000);
}

TEST_CASE("sectors: shares of the compass are 70, 110 and 180", "[sectors]") {
  for (const Side turns : {Side::left, Side::right}) {
    int count[kEntryKinds] = {};
    for (int i = 0; i < 3600; ++i) {
      ++count[static_cast<int>(choose_sector({123.0, turns}, 0.05 + 0.1 * i).kind)];
    }
    CHECK(count[static_cast<int>(EntryKind::offset)] == 700);
    CHECK(count[static_cast<int>(EntryKind::parallel)] == 1100);
    CHECK(count[static_cast<int>(EntryKind::direct)] == 1800);
  }
}

TEST_CASE("sectors: boundaries belong as the design says, mirrored", "[sectors][seam]") {
  struct Row {
    double delta;
    EntryKind kind;
    EntryKind also;
  };
  constexpr EntryKind off = EntryKind::offset;
  constexpr EntryKind par = EntryKind::parallel;
  constexpr EntryKind dir = EntryKind::direct;
  for (const Row& row :
       {Row{-70, off, dir}, Row{-71, dir, off}, Row{-75, dir, off}, Row{-76, dir, dir},
        Row{-65, off, dir}, Row{-64, off, off}, Row{-6, off, off}, Row{-5, off, par},
        Row{0, off, par}, Row{1, par, off}, Row{5, par, off}, Row{6, par, par}, Row{104, par, par},
        Row{105, par, dir}, Row{110, par, dir}, Row{111, dir, par}, Row{115, dir, par},
        Row{116, dir, dir}, Row{180, dir, dir}}) {
    for (double inbound = 1.0; inbound <= 360.0; inbound += 1.0) {
      const Hold right{inbound, Side::right};
      const Hold left{inbound, Side::left};
      const SectorChoice r = choose_sector(right, right.outbound_course_deg() + row.delta);
      const SectorChoice l = choose_sector(left, left.outbound_course_deg() - row.delta);
      INFO(inbound << " delta " << row.delta);
      REQUIRE(r.kind == row.kind);
      REQUIRE(r.also == row.also);
      REQUIRE(r.delta_deg == row.delta);
      REQUIRE(l.kind == row.kind);
      REQUIRE(l.also == row.also);
      REQUIRE(l.delta_deg == row.delta);
    }
  }
}

TEST_CASE("hold: the axes point where their names say", "[hold]") {
  const Hold right{360.0, Side::right};  // inbound north: the pattern lies east
  CHECK(right.outbound_course_deg() == 180.0);
  CHECK(right.to_go_nm({0.0, -3.0}) == 3.0);
  CHECK(right.to_go_nm({0.0, 2.0}) == -2.0);
  CHECK(right.cross_nm({1.5, -3.0}) == 1.5);
  const Hold left{360.0, Side::left};
  CHECK(left.cross_nm({-1.5, -3.0}) == 1.5);
  CHECK(left.to_go_nm({-1.5, -3.0}) == 3.0);
  test::Random r(1202);
  for (int i = 0; i < 1000; ++i) {
    const Hold h{r.between(0.0, 360.0), i % 2 ? Side::left : Side::right};
    CHECK(std::abs(dot(h.outbound_axis(), h.holding_axis())) < 4e-15);
    CHECK(std::abs(length(h.holding_axis()) - 1.0) < 1e-15);
    // Turning from inbound in the pattern's direction one first moves to the holding side.
    CHECK(h.cross_nm(along(h.inbound_course_deg + 10.0 * sign_of(h.turns))) > 0.17);
  }
}
