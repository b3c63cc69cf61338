#include "core/hand_flown.h"

#include <algorithm>

#include "core/roots.h"

namespace core {
namespace {

/// A command this close to the end of a piece is at its end: rounding must not leave a sliver.
constexpr double kSameTimeS = 1e-9;
/// A turn without an end, seconds of rolling: longer than any flight.
constexpr double kForEverS = 1e6;

}  // namespace

HandFlown::HandFlown(const Setup& setup) : setup_(setup) {
  if (!setup.arrival.exists) return;
  heading_deg_ = setup.arrival.heading_deg;
  bug_deg_ = heading_deg_;
  at_ = ground_velocity(setup, heading_deg_) * -kHandArrivalS;
  straight_on();
}

void HandFlown::add(double duration_s, double rate_deg_s, Roll roll) {
  const double speed = setup_.tas_kt * kNmPerSecondPerKnot;
  const Vec2 change = setup_.wind_change_nm_s2;
  const bool changes = change.x != 0.0 || change.y != 0.0;
  // The wind changes from the fix on: a piece that passes that moment becomes two.
  double rest_s = duration_s;
  while (rest_s > 0.0) {
    const bool before = t_s_ < 0.0;
    const double here_s = changes && before && t_s_ + rest_s > 0.0 ? -t_s_ : rest_s;
    const Vec2 wind = changes && !before ? setup_.wind_nm_s + change * t_s_ : setup_.wind_nm_s;
    const Segment s{t_s_,       here_s, at_,  heading_deg_,
                    rate_deg_s, speed,  wind, changes && !before ? change : Vec2{0.0, 0.0},
                    roll};
    pieces_.push_back(s);
    rest_s -= here_s;
    t_s_ = rest_s > 0.0 ? 0.0 : s.end_s();
    at_ = s.position_at(here_s);
    heading_deg_ = s.heading_at(here_s);
    bank_rad_ = s.bank_rad_at(here_s);
    if (roll.each_s != 0.0) roll.from_s += here_s;
  }
}

void HandFlown::straight_on() {
  bank_rad_ = 0.0;
  add(kMostHandFlownS - t_s_, 0.0, kNoRoll);
}

void HandFlown::completed() {
  if (levels_s_.empty() || levels_s_.back() < t_s_ - kSameTimeS) levels_s_.push_back(t_s_);
}

void HandFlown::roll_out() {
  const RollIn& in = setup_.roll_in;
  const double bank = std::abs(bank_rad_);
  if (in.rate_rad_s == 0.0 || bank == 0.0) return;
  const double each = bank / in.rate_rad_s;
  const double rate = (bank_rad_ > 0.0 ? 1.0 : -1.0) * in.k_deg_s * std::tan(bank);
  add(each, rate, {each, bank, 2.0 * each, each});
  bank_rad_ = 0.0;
}

void HandFlown::turn_by(Side side, double angle_deg, double to_deg) {
  const double sign = sign_of(side);
  const double bank = std::abs(bank_rad_);
  // Banked already, the turn is the rest of one that began level.
  const RollIn& in = setup_.roll_in;
  const double gained =
      bank > 0.0 ? roll_gain_deg(in.k_deg_s, in.rate_rad_s, bank / in.rate_rad_s) : 0.0;
  TurnTiming timing = turn_timing(setup_.turn, in, angle_deg + gained);
  if (bank > 0.0) timing.roll.from_s = bank / in.rate_rad_s;
  const double rest_s = timing.duration_s - timing.roll.from_s;
  if (rest_s > 0.0) {
    add(rest_s, sign * timing.rate_deg_s, timing.roll);
    completed();
  }
  // Not the sum of start and angle: no rounding is carried from turn to turn.
  heading_deg_ = to_deg;
  bank_rad_ = 0.0;
}

void HandFlown::cut(double t_s) {
  while (!pieces_.empty() && pieces_.back().start_s >= t_s - kSameTimeS) {
    const Segment& first = pieces_.back();
    t_s_ = first.start_s;
    at_ = first.start;
    heading_deg_ = first.heading_deg;
    bank_rad_ = first.bank_rad_at(0.0);
    pieces_.pop_back();
  }
  if (!pieces_.empty() && pieces_.back().end_s() > t_s + kSameTimeS) {
    Segment& last = pieces_.back();
    last.duration_s = t_s - last.start_s;
    t_s_ = last.end_s();
    at_ = last.position_at(last.duration_s);
    heading_deg_ = last.heading_at(last.duration_s);
    bank_rad_ = last.bank_rad_at(last.duration_s);
  }
  while (!levels_s_.empty() && levels_s_.back() > t_s + kSameTimeS) levels_s_.pop_back();
}

bool HandFlown::accept(Command command, double& t_s) {
  if (!exists() || !std::isfinite(t_s)) return false;
  t_s = std::fmin(std::fmax(t_s, told_s_), kMostHandFlownS);
  const bool again = command == told_ && t_s == told_s_ && commands_ > 0;
  if (!again) {
    if (commands_ == kMostCommands) return false;
    ++commands_;
  }
  told_ = command;
  told_s_ = t_s;
  return true;
}

Side HandFlown::side_to(double heading_deg, Way way) const {
  if (way != Way::shorter) return way == Way::left ? Side::left : Side::right;
  const bool level = !levels_s_.empty() && levels_s_.back() >= t_s_ - kSameTimeS;
  const double rate = pieces_.empty() || level ? 0.0 : pieces_.back().rate_deg_s;
  if (rate != 0.0) {
    constexpr double kMostOnDeg = 270.0;
    const Side on = rate > 0.0 ? Side::right : Side::left;
    if (turn_angle((heading_deg - heading_deg_) * sign_of(on)) <= kMostOnDeg) return on;
  }
  return short_way(setup_, heading_deg_, heading_deg);
}

bool HandFlown::bug(double t_s, double heading_deg, Way way) {
  if (!std::isfinite(heading_deg) || !accept(Command::bug, t_s)) return false;
  const double to = wrap_360(heading_deg);
  bug_deg_ = to;
  cut(t_s);
  Side side = side_to(to, way);
  double angle = turn_angle((to - heading_deg_) * sign_of(side));
  const double bank = std::abs(bank_rad_);
  if (bank > 0.0) {
    const RollIn& in = setup_.roll_in;
    const bool same_side = (bank_rad_ > 0.0) == (side == Side::right);
    const double to_stop_deg = roll_gain_deg(in.k_deg_s, in.rate_rad_s, bank / in.rate_rad_s);
    if (!same_side || angle < to_stop_deg) {
      roll_out();
      if (same_side) side = short_way(setup_, heading_deg_, to);
      angle = turn_angle((to - heading_deg_) * sign_of(side));
    }
  }
  turn_by(side, angle, to);
  straight_on();
  return true;
}

bool HandFlown::turn(double t_s, Side side) {
  if (!accept(Command::turn, t_s)) return false;
  bug_deg_.reset();
  cut(t_s);
  if (bank_rad_ != 0.0 && (bank_rad_ > 0.0) != (side == Side::right)) roll_out();
  Roll roll = kNoRoll;
  const RollIn& in = setup_.roll_in;
  if (in.rate_rad_s != 0.0) {
    roll = {in.seconds, in.bank_rad, kForEverS, std::abs(bank_rad_) / in.rate_rad_s};
  }
  add(kMostHandFlownS - t_s_, sign_of(side) * setup_.turn.rate_deg_s, roll);
  return true;
}

bool HandFlown::level(double t_s) {
  if (!accept(Command::level, t_s)) return false;
  bug_deg_.reset();
  cut(t_s);
  const bool turning = !pieces_.empty() && pieces_.back().rate_deg_s != 0.0;
  roll_out();
  if (turning) completed();
  straight_on();
  return true;
}

bool HandFlown::clock(double t_s) {
  if (!accept(Command::clock, t_s)) return false;
  if (!clocks_s_.empty() && clocks_s_.back() == t_s) return true;
  clocks_s_.push_back(t_s);
  return true;
}

HandFlown::Pose HandFlown::pose(double t_s) const {
  const Pieces track = this->track();
  if (track.size() == 0) return {{0.0, 0.0}, 360.0, {0.0, 0.0}, 0.0, 0.0};
  // At a command's very time: as it says already.
  const Segment& s = track[track.index_at(t_s + kSameTimeS)];
  double t = t_s - s.start_s;
  if (!(t > 0.0)) t = 0.0;
  if (t > s.duration_s) t = s.duration_s;
  return {s.position_at(t), s.heading_at(t), s.velocity_at(t), s.bank_rad_at(t), s.rate_at(t)};
}

std::optional<double> HandFlown::stopwatch_s(double t_s) const {
  const auto after = std::upper_bound(clocks_s_.begin(), clocks_s_.end(), t_s);
  if (after == clocks_s_.begin()) return std::nullopt;
  return t_s - *(after - 1);
}

std::vector<Passage> passages(const HandFlown& flown, double until_s, int most) {
  std::vector<Passage> found;
  const Pieces track = flown.track();
  // Where position and velocity are square to each other, from coming closer to going away.
  constexpr double kStepS = 2.0;
  double f0 = -1.0;  // carried from piece to piece: a passage may lie on their border
  for (const Segment& s : track) {
    if (s.start_s >= until_s) break;
    const double end = std::fmin(s.duration_s, until_s - s.start_s);
    const auto opening = [&](double t) { return dot(s.position_at(t), s.velocity_at(t)); };
    const int steps = std::max(1, static_cast<int>(end / kStepS) + 1);
    double t0 = 0.0;
    for (int i = 0; i <= steps; ++i) {
      const double t1 = end * i / steps;
      const double f1 = opening(t1);
      if (f0 < 0.0 && f1 >= 0.0) {
        const double t = i == 0 ? 0.0 : bracketed_root(opening, t0, t1, f0, f1);
        const double distance = length(s.position_at(t));
        if (distance <= kPassageNm) {
          found.push_back({s.start_s + t, distance, s.heading_at(t)});
          if (static_cast<int>(found.size()) >= most) return found;
        }
      }
      t0 = t1;
      f0 = f1;
    }
  }
  return found;
}

}  // namespace core
