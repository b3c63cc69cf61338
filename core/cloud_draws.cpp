#include "core/cloud_draws.h"

#include <cmath>

#include "core/seeded.h"

namespace core {
namespace {

/// In (0, 1), never an end.
double inside_one(Seeded& stream) {
  return (static_cast<double>(stream.bits() >> 11U) + 0.5) * 0x1p-53;
}

}  // namespace

Columns Columns::with(Unknown unknown, const Columns& other) const {
  Columns out = *this;
  const auto k = static_cast<std::size_t>(unknown);
  out.z[k] = other.z[k];
  if (unknown == Unknown::wind_from) {
    out.from_sin = other.from_sin;
    out.from_cos = other.from_cos;
  }
  if (unknown == Unknown::heading) {
    out.heading_sin = other.heading_sin;
    out.heading_cos = other.heading_cos;
  }
  return out;
}

void Draws::Turned::aim(double new_sd_deg) {
  if (sd_deg == new_sd_deg) return;
  sd_deg = new_sd_deg;
  sin.clear();
  cos.clear();
}

void Draws::Turned::reach(const std::vector<double>& z) {
  for (std::size_t i = sin.size(); i < z.size(); ++i) {
    const SinCos s = sincos_deg(sd_deg * z[i]);
    sin.push_back(s.sin);
    cos.push_back(s.cos);
  }
}

void Draws::aim(std::uint32_t seed, double from_sd_deg, double heading_sd_deg) {
  if (seed != seed_) {
    seed_ = seed;
    for (std::vector<double>& z : z_) z.clear();
    from_ = {};
    heading_ = {};
  }
  from_.aim(from_sd_deg);
  heading_.aim(heading_sd_deg);
}

void Draws::reach(std::size_t count) {
  for (std::size_t i = z_[0].size(); i < count; ++i) {
    Seeded stream(stream_of("cloud", set_, seed_, static_cast<int>(i)));
    // Two at a time: Box and Muller (1958), Ann. Math. Statist. 29:610 (memory).
    for (std::size_t k = 0; k < kUnknowns; k += 2) {
      const double away = std::sqrt(-2.0 * std::log(inside_one(stream)));
      const SinCos way = sincos_deg(360.0 * inside_one(stream));
      z_[k].push_back(away * way.cos);
      z_[k + 1].push_back(away * way.sin);
    }
  }
  from_.reach(z_[static_cast<std::size_t>(Unknown::wind_from)]);
  heading_.reach(z_[static_cast<std::size_t>(Unknown::heading)]);
}

Columns Draws::columns() const {
  Columns out{{}, from_.sin.data(), from_.cos.data(), heading_.sin.data(), heading_.cos.data()};
  for (std::size_t k = 0; k < kUnknowns; ++k) out.z[k] = z_[k].data();
  return out;
}

}  // namespace core
