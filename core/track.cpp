#include "core/track.h"

#include "core/roots.h"

namespace core {

Vec2 Segment::air_motion(double t_s) const {
  // The chord of the arc: V t sinc(theta/2) along the mean heading. Unlike
  // (V/w)(cos a - cos b) it loses no digits as the turn rate goes to zero.
  const double half_deg = 0.5 * rate_deg_s * t_s;
  const double half_rad = half_deg * kDegToRad;
  double chord = speed_nm_s * t_s;
  if (half_rad != 0.0) chord *= std::sin(half_rad) / half_rad;
  return along(heading_deg + half_deg) * chord;
}

double first_rise_through(const Segment& segment, Vec2 axis, double level) {
  const double wind = dot(axis, segment.wind_nm_s);
  // Too far away to get there at all: most pieces end here.
  const double speed = segment.speed_nm_s * length(axis);
  if (level - dot(axis, segment.start) > (speed + wind) * segment.duration_s * (1.0 + 1e-12)) {
    return -1.0;
  }
  const auto gap = [&](double t) { return dot(axis, segment.position_at(t)) - level; };
  const double g0 = gap(0.0);
  if (segment.rate_deg_s == 0.0) {
    const double rate = dot(axis, segment.velocity_at(0.0));
    if (!(rate > 0.0) || g0 >= 0.0) return -1.0;
    const double t = -g0 / rate;
    return t <= segment.duration_s ? t : -1.0;
  }
  // Along the axis the turn moves as c + speed * cos(heading - axis) + wind; its
  // rate vanishes where that cosine is -wind/speed: at most two times a circle.
  const double ratio = -wind / speed;
  double t0 = 0.0;
  double f0 = g0;
  const auto try_until = [&](double t1) {
    const double f1 = gap(t1);
    if (f0 < 0.0 && f1 >= 0.0) return bracketed_root(gap, t0, t1, f0, f1);
    t0 = t1;
    f0 = f1;
    return -1.0;
  };
  if (std::abs(ratio) < 1.0) {
    const double axis_deg = direction_of(axis);
    const double still_deg = std::acos(ratio) * kRadToDeg;
    const double way = segment.rate_deg_s > 0.0 ? 1.0 : -1.0;
    const double rate = std::abs(segment.rate_deg_s);
    double first = turn_angle(way * (axis_deg + still_deg - segment.heading_deg)) / rate;
    double second = turn_angle(way * (axis_deg - still_deg - segment.heading_deg)) / rate;
    if (second < first) {
      const double swap = first;
      first = second;
      second = swap;
    }
    for (double lap = 0.0; first + lap < segment.duration_s; lap += 360.0 / rate) {
      if (const double t = try_until(first + lap); t >= 0.0) return t;
      if (second + lap >= segment.duration_s) break;
      if (const double t = try_until(second + lap); t >= 0.0) return t;
    }
  }
  return try_until(segment.duration_s);
}

int Track::index_at(double t_s) const {
  int low = 0;
  int high = size_ - 1;
  while (low < high) {
    const int mid = (low + high + 1) / 2;
    if (segments_[static_cast<unsigned>(mid)].start_s <= t_s) {
      low = mid;
    } else {
      high = mid - 1;
    }
  }
  return low;
}

namespace {
double clamped(const Segment& s, double t_s) {
  const double t = t_s - s.start_s;
  if (!(t > 0.0)) return 0.0;
  return t < s.duration_s ? t : s.duration_s;
}
}  // namespace

Vec2 Track::position_at(double t_s) const {
  if (size_ == 0) return {};
  const Segment& s = (*this)[index_at(t_s)];
  return s.position_at(clamped(s, t_s));
}

double Track::heading_at(double t_s) const {
  if (size_ == 0) return 360.0;
  const Segment& s = (*this)[index_at(t_s)];
  return s.heading_at(clamped(s, t_s));
}

Vec2 Track::velocity_kt_at(double t_s) const {
  if (size_ == 0) return {};
  const Segment& s = (*this)[index_at(t_s)];
  return s.velocity_at(clamped(s, t_s)) * 3600.0;
}

}  // namespace core
