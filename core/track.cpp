#include "core/track.h"

#include "core/roots.h"

namespace core {

namespace {

/// Where a rolled turn is, `t` after its rolling began: rolling in, at full bank, rolling out.
struct RollPhases {
  double in_s;      ///< of the rolling in
  double steady_s;  ///< at full bank
  double out_s;     ///< of the rolling out that is flown
};
RollPhases phases(const Segment& s, double t) {
  const double each = s.roll.each_s;
  const double out_from = s.roll.whole_s - each;
  const double in = t < each ? t : each;
  const double out = t > out_from ? t - out_from : 0.0;
  const double steady = (t < out_from ? t : out_from) - in;
  return {in, steady > 0.0 ? steady : 0.0, out};
}

/// Turn rate by tan(bank), deg/s, > 0.
double rate_by_tan(const Segment& s) { return std::abs(s.rate_deg_s) / std::tan(s.roll.bank_rad); }

}  // namespace

double Segment::rolled_deg(double t_s) const {
  if (roll.bank_rad == 0.0) return 0.0;
  const double k = rate_by_tan(*this);
  const double roll_rad_s = roll.bank_rad / roll.each_s;
  const auto since_level = [&](double t) {
    const RollPhases p = phases(*this, t);
    double turned = roll_gain_deg(k, roll_rad_s, p.in_s) + std::abs(rate_deg_s) * p.steady_s;
    if (p.out_s > 0.0) {
      turned += roll_gain_deg(k, roll_rad_s, roll.each_s) -
                roll_gain_deg(k, roll_rad_s, roll.each_s - p.out_s);
    }
    return turned;
  };
  const double before = roll.from_s == 0.0 ? 0.0 : since_level(roll.from_s);
  return (rate_deg_s < 0.0 ? -1.0 : 1.0) * (since_level(roll.from_s + t_s) - before);
}

double Segment::bank_rad_at(double t_s) const {
  if (roll.each_s == 0.0) return 0.0;
  const RollPhases p = phases(*this, roll.from_s + t_s);
  return (rate_deg_s < 0.0 ? -1.0 : 1.0) * (roll.bank_rad / roll.each_s) * (p.in_s - p.out_s);
}

double Segment::rate_at(double t_s) const {
  if (roll.each_s == 0.0 || roll.bank_rad == 0.0) return rate_deg_s;
  return rate_by_tan(*this) * std::tan(bank_rad_at(t_s));
}

Vec2 Segment::air_motion(double t_s) const {
  if (roll.each_s != 0.0) {
    // Rolling, at full bank, rolling: each part smooth.
    const double from = roll.from_s;
    const double until = from + t_s;
    const auto heading = [this, from](double t) { return heading_deg + turned_deg(t - from); };
    const double each = roll.each_s;
    const double out_from = roll.whole_s - each;
    Vec2 sum{0.0, 0.0};
    if (from < each) sum = integral_along(heading, from, until < each ? until : each);
    const double steady_from = from < each ? each : from;
    const double steady_until = until < out_from ? until : out_from;
    if (steady_until > steady_from) {
      const double half_deg = 0.5 * rate_deg_s * (steady_until - steady_from);
      const double half_rad = half_deg * kDegToRad;
      double chord = steady_until - steady_from;
      if (half_rad != 0.0) chord *= std::sin(half_rad) / half_rad;
      sum = sum + along(heading(steady_from) + half_deg) * chord;
    }
    if (until > out_from) {
      sum = sum + integral_along(heading, from > out_from ? from : out_from, until);
    }
    return sum * speed_nm_s;
  }
  // The chord of the arc: V t sinc(theta/2) along the mean heading. Unlike
  // (V/w)(cos a - cos b) it loses no digits as the turn rate goes to zero.
  const double half_deg = 0.5 * rate_deg_s * t_s;
  const double half_rad = half_deg * kDegToRad;
  double chord = speed_nm_s * t_s;
  if (half_rad != 0.0) chord *= std::sin(half_rad) / half_rad;
  return along(heading_deg + half_deg) * chord;
}

double first_time(double gap, double rate, double change) {
  if (change == 0.0) return rate > 0.0 ? gap / rate : -1.0;
  const double square = rate * rate + 2.0 * change * gap;
  if (!(square >= 0.0)) return -1.0;
  const double sum = rate + std::sqrt(square);
  return sum > 0.0 ? 2.0 * gap / sum : -1.0;
}

namespace {

/// The general case: extremes are looked for between moments at most 5 degrees of turn or
/// an eighth of the piece apart.
double rise_by_search(const Segment& s, Vec2 axis, double level) {
  const auto gap = [&](double t) { return dot(axis, s.position_at(t)) - level; };
  const auto speed = [&](double t) { return dot(axis, s.velocity_at(t)); };
  const int by_angle = static_cast<int>(std::abs(s.turned_deg(s.duration_s)) / 5.0);
  const int steps = by_angle < 8 ? 8 : by_angle > 400 ? 400 : by_angle;
  double t0 = 0.0;
  double g0 = gap(0.0);
  double v0 = speed(0.0);
  const auto rises_until = [&](double t1) {
    const double g1 = gap(t1);
    if (g0 < 0.0 && g1 >= 0.0) return bracketed_root(gap, t0, t1, g0, g1);
    t0 = t1;
    g0 = g1;
    return -1.0;
  };
  for (int i = 1; i <= steps; ++i) {
    const double t1 = s.duration_s * i / steps;
    const double v1 = speed(t1);
    if ((v0 < 0.0) != (v1 < 0.0)) {
      if (const double t =
              rises_until(bracketed_root(speed, s.duration_s * (i - 1) / steps, t1, v0, v1));
          t >= 0.0)
        return t;
    }
    if (const double t = rises_until(t1); t >= 0.0) return t;
    v0 = v1;
  }
  return -1.0;
}

}  // namespace

double first_rise_through(const Segment& segment, Vec2 axis, double level) {
  const double wind = dot(axis, segment.wind_nm_s);
  // Too far away to get there at all: most pieces end here.
  const double speed = segment.speed_nm_s * length(axis);
  const double change = dot(axis, segment.wind_change_nm_s2);
  const double more = change > 0.0 ? 0.5 * change * segment.duration_s : 0.0;
  if (level - dot(axis, segment.start) >
      (speed + wind + more) * segment.duration_s * (1.0 + 1e-12)) {
    return -1.0;
  }
  const auto gap = [&](double t) { return dot(axis, segment.position_at(t)) - level; };
  const double g0 = gap(0.0);
  if (segment.rate_deg_s == 0.0) {
    if (g0 >= 0.0) return -1.0;
    const double t = first_time(-g0, dot(axis, segment.velocity_at(0.0)), change);
    return t <= segment.duration_s ? t : -1.0;
  }
  if (!segment.even()) return rise_by_search(segment, axis, level);
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

int Pieces::index_at(double t_s) const {
  int low = 0;
  int high = count - 1;
  while (low < high) {
    const int mid = (low + high + 1) / 2;
    if (first[mid].start_s <= t_s) {
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

Vec2 Pieces::position_at(double t_s) const {
  if (count == 0) return {};
  const Segment& s = (*this)[index_at(t_s)];
  return s.position_at(clamped(s, t_s));
}

double Pieces::heading_at(double t_s) const {
  if (count == 0) return 360.0;
  const Segment& s = (*this)[index_at(t_s)];
  return s.heading_at(clamped(s, t_s));
}

Vec2 Pieces::velocity_kt_at(double t_s) const {
  if (count == 0) return {};
  const Segment& s = (*this)[index_at(t_s)];
  return s.velocity_at(clamped(s, t_s)) * 3600.0;
}

}  // namespace core
