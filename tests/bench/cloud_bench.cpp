// tests/bench/cloud_bench.cpp - a cloud of flights, its picture, and how its cost grows.
#include <catch2/benchmark/catch_benchmark.hpp>
#include <catch2/catch_test_macros.hpp>

#include "core/cloud_paint.h"
#include "tests/bench/fact.h"

using namespace core;

TEST_CASE("cloud") {
  const Setup u = make_setup(Scenario{});
  Cloud cloud;
  for (const int flights : {2500, 5000, 10000, 20000}) {
    // As in a drag: the seed's numbers are there, the scene is new.
    BENCHMARK("cloud-" + std::to_string(flights)) {
      cloud.set(u, Cloud::kUsual, 1);
      cloud.fly_more(flights);
      return cloud.cross_nm()[1];
    };
  }
  cloud.set(u, Cloud::kUsual, 1);
  cloud.fly_more(10000);
  bench::fact("cloud_flown", cloud.summary(0.25).flown);
  const Viewport view{{0.0, 0.0}, 120.0, 800.0, 600.0};
  std::vector<std::uint8_t> rgba;
  BENCHMARK("cloud-image") {
    paint_cloud(cloud, density_of(cloud), view, {}, {}, 300, rgba);
    return rgba[3];
  };
  BENCHMARK("cloud-shares") {
    cloud.set(u, Cloud::kUsual, 1);
    cloud.share_more(1000);
    return cloud.cross_shares().together.share;
  };
}
