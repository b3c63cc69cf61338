// core/cloud_draws.h - the random numbers of a cloud's flights, kept from scene to scene.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/deviation.h"

namespace core {

/// A "+-" in standard deviations: of a normal distribution so much either way holds 19 of 20
/// (0.95 = erf(1.95996 / sqrt 2)).
inline constexpr double kSdsIn19Of20 = 1.959963984540054;

/// Where the numbers of a run of flights stand, one beside the other: standard normal numbers, and
/// sine and cosine of what turns a direction.
struct Columns {
  std::array<const double*, kUnknowns> z;
  const double* from_sin;  ///< the wind's direction is off by this angle
  const double* from_cos;
  const double* heading_sin;
  const double* heading_cos;

  /// With the numbers of one unknown taken from another set.
  [[nodiscard]] Columns with(Unknown unknown, const Columns& other) const;
};

/// One set of numbers. Each flight has a stream of its own (core/seeded.h): how many follow
/// changes nothing.
class Draws {
 public:
  explicit Draws(int set) : set_(set) {}
  /// Forgets what another seed drew, and the sines of other standard deviations.
  void aim(std::uint32_t seed, double from_sd_deg, double heading_sd_deg);
  /// Draws as far as flight `count`.
  void reach(std::size_t count);
  [[nodiscard]] Columns columns() const;

 private:
  struct Turned {
    double sd_deg = 0.0;
    std::vector<double> sin;
    std::vector<double> cos;
    void aim(double new_sd_deg);
    void reach(const std::vector<double>& z);
  };

  int set_;
  std::uint32_t seed_ = 0;
  std::array<std::vector<double>, kUnknowns> z_;
  Turned from_;
  Turned heading_;
};

}  // namespace core
