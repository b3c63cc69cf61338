#include "core/infer.h"

#include <limits>
#include <type_traits>

#include "core/box_roots.h"
#include "core/roots.h"

namespace core {
namespace {

using Clock = FlownLeg::Clock;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kTurnRad = 2.0 * kPi;
/// Longest way to abeam or to a distance that the pilot in core/flight.h flies.
constexpr double kLongestS = 4.0 * kMostOutboundS;
/// A ten-thousandth of the airspeed: Newton's method does the rest.
constexpr double kFinest = 1e-4;
/// Start courses this near to the inbound course or against it: a headwind of any strength
/// moves the roll-out across by metres at most.
constexpr double kFlatSine = 1e-4;
/// Closer to each other, kt, two roots are one.
constexpr double kSameKt = 1e-4;

// --- The leg as equations ----------------------------------------------------------

/// The leg in natural units, in which nothing but angles is left: speeds in true
/// airspeeds, distances in still-air turn radii, times as the angle turned in them
/// (radians). Unknown: x = crosswind from the right of the inbound course, w = headwind on
/// it. Formulas: docs/theory.md "Wind inferred".
struct NaturalLeg {
  NaturalLeg(const Setup& u, const FlownLeg& leg)
      : start(sincos_deg((leg.after_arrival ? u.scenario.arrival_course_deg : inbound_course(u)) -
                         inbound_course(u))),
        start_rad(std::atan2(start.sin, start.cos)),
        heading(sincos_deg(leg.heading_deg - inbound_course(u))),
        heading_rad(std::atan2(heading.sin, heading.cos)),
        sign(u.turn_sign),
        clock(leg.clock),
        time(clock == Clock::distance ? 0.0 : leg.time_s * u.turn.rate_deg_s * kDegToRad),
        level(clock == Clock::distance ? leg.distance_nm / u.turn.radius_nm : 0.0) {}
  static double inbound_course(const Setup& u) { return u.scenario.inbound_course_deg; }

  SinCos start;  ///< course flown at the start, from the inbound course
  double start_rad;
  SinCos heading;
  double heading_rad;
  double sign;
  Clock clock;
  double time;
  double level;
};

/// One smooth piece of the leg's formulas: which way the first turn goes, whole circles
/// added to either turn, and whether the straight waits (for the clock to start, for the
/// distance) or is there at all (the clock ran out in the turn).
struct Piece {
  double out_sign;
  double out_circles;
  double in_circles;
  bool straight;
  double most_out;  ///< first turn at most, radians
};

/// The two equations wanted to vanish.
struct Wanted {
  std::optional<double> sine;     ///< of the correction held
  std::optional<double> cross;    ///< radii
  std::optional<double> inbound;  ///< time, radians
};

class LegEquations {
 public:
  LegEquations(const NaturalLeg& leg, const Piece& piece, const Wanted& wanted, double most_wind)
      : leg_(leg), piece_(piece), wanted_(wanted), most_wind_(most_wind) {}

  [[nodiscard]] TwoEquations<Interval> over(const Box& box) const { return at(box.x, box.y); }
  template <class N>
  [[nodiscard]] TwoEquations<N> at(const N& x, const N& w) const;

 private:
  const NaturalLeg& leg_;
  const Piece& piece_;
  const Wanted& wanted_;
  double most_wind_;
};

template <class N>
TwoEquations<N> LegEquations::at(const N& x, const N& w) const {
  constexpr bool kRange = std::is_same_v<N, Interval>;
  [[maybe_unused]] constexpr double kEdge = 1e-9;
  TwoEquations<N> out;
  out.possible = true;
  const double s = leg_.sign;
  const double way = piece_.out_sign;
  // Corrections on the inbound course and on the one flown at the start.
  const N y = x * leg_.start.cos - w * leg_.start.sin;
  const N cos_x = cosine_of_sine(x);
  const N cos_y = cosine_of_sine(y);
  const N turn_out =
      way * ((leg_.heading_rad - leg_.start_rad) - inverse_sine(y)) + piece_.out_circles * kTurnRad;
  const N turn_in = s * (inverse_sine(x) - leg_.heading_rad) + piece_.in_circles * kTurnRad;
  if constexpr (kRange) {
    out.smooth = x.greatest() < 1.0 - kEdge && y.greatest() < 1.0 - kEdge;
    out.possible = x.least() < 1.0 && y.least() < 1.0 &&
                   x.least() * x.least() + w.least() * w.least() <= most_wind_ * most_wind_ &&
                   w.lo < cos_x.hi && turn_out.hi >= -kEdge &&
                   turn_out.lo <= piece_.most_out + kEdge && turn_in.hi >= -kEdge &&
                   turn_in.lo <= kTurnRad + kEdge;
    if (!out.possible) return out;
  } else {
    out.smooth = std::abs(x) < 1.0 && std::abs(y) < 1.0;
    if (!out.smooth) return out;
  }
  const N start_cos = leg_.start.cos * cos_y - leg_.start.sin * y;
  const N start_sin = leg_.start.sin * cos_y + leg_.start.cos * y;
  const N per_cos_x = reciprocal(cos_x);
  const N per_cos_y = reciprocal(cos_y);
  const N y_x = leg_.start.cos * per_cos_y;  // slopes of the correction itself
  const N y_w = -leg_.start.sin * per_cos_y;
  const N out_x = -way * y_x;
  const N out_w = -way * y_w;

  // The straight but for the wait, and its slopes.
  N straight = x * 0.0 + (leg_.clock == Clock::fix ? 0.0 : leg_.time);
  N straight_x = x * 0.0;
  N straight_w = straight_x;
  if (leg_.clock == Clock::fix) {
    const N left = leg_.time - turn_out;
    if constexpr (kRange) {
      out.possible = piece_.straight ? left.hi >= -kEdge : left.lo <= kEdge;
    }
    if (piece_.straight) {
      straight = left;
      straight_x = -1.0 * out_x;
      straight_w = -1.0 * out_w;
    }
  }
  const N duration = turn_out + straight + turn_in;
  const N duration_x = out_x + straight_x + s * per_cos_x;
  const N duration_w = out_w + straight_w;
  N cross = way * s * (start_cos - leg_.heading.cos) + s * leg_.heading.sin * straight +
            (leg_.heading.cos - cos_x) - s * (x * duration) - wanted_.cross.value_or(0.0);
  N cross_x = -way * s * (start_sin * y_x) + s * leg_.heading.sin * straight_x + x * per_cos_x -
              s * (duration + x * duration_x);
  N cross_w =
      -way * s * (start_sin * y_w) + s * leg_.heading.sin * straight_w - s * (x * duration_w);
  N to_go = way * (start_sin - leg_.heading.sin) - leg_.heading.cos * straight -
            s * (x - leg_.heading.sin) + w * duration;
  N to_go_x = way * (start_cos * y_x) - leg_.heading.cos * straight_x - s + w * duration_x;
  N to_go_w = way * (start_cos * y_w) - leg_.heading.cos * straight_w + duration + w * duration_w;
  if (leg_.clock == Clock::abeam || leg_.clock == Clock::distance) {
    // Still to fly to the point where the clock starts, and how fast that shrinks.
    const N gap = leg_.level - (way * (start_sin - leg_.heading.sin) + w * turn_out);
    const N rate = w - leg_.heading.cos;
    if constexpr (kRange) {
      out.possible = piece_.straight ? gap.hi >= -kEdge && rate.hi > 0.0 : gap.lo <= kEdge;
    }
    if (piece_.straight) {
      const N gap_x = -1.0 * (way * (start_cos * y_x) + w * out_x);
      const N gap_w = -1.0 * (way * (start_cos * y_w) + w * out_w + turn_out);
      const N aside = s * (leg_.heading.sin - x);
      // The wait is gap / rate long. Multiplied by the rate the miss has no pole, and
      // along the course the wait makes good the gap itself.
      cross_x = cross_x * rate + aside * gap_x - s * gap;
      cross_w = cross_w * rate + cross + aside * gap_w;
      cross = cross * rate + aside * gap;
      to_go = leg_.level + straight * rate - s * (x - leg_.heading.sin) + w * turn_in;
      to_go_x = s * (w * per_cos_x) - s;
      to_go_w = straight + turn_in;
    }
  }

  int i = 0;
  const auto equation = [&](const N& value, const N& along_x, const N& along_w) {
    if (i == 2) return;
    out.value[i] = value;
    out.slope[i][0] = along_x;
    out.slope[i][1] = along_w;
    ++i;
  };
  if (wanted_.sine) equation(x - *wanted_.sine, x * 0.0 + 1.0, x * 0.0);
  if (wanted_.cross) equation(cross, cross_x, cross_w);
  if (wanted_.inbound) {
    const double t = *wanted_.inbound;
    equation(to_go - t * (cos_x - w), to_go_x + t * (x * per_cos_x), to_go_w + t);
  }
  return out;
}

// --- Winds as vectors --------------------------------------------------------------

/// Points where the wind comes from, kt.
Vec2 from_vector(Wind wind) { return along(wind.from_deg) * wind.speed_kt; }
Wind wind_of(Vec2 from) { return {direction_of(from), length(from)}; }

/// What a leg gives, in the order of Observed; absent where it cannot be flown.
struct Outcome {
  double v[3];
};

std::optional<Outcome> outcome_in(const Setup& flown, const FlownLeg& leg, Vec2 from) {
  const Setup u = in_wind(flown, wind_of(from));
  const Rollout r = leg_rollout(u, leg);
  if (!r.exists) return std::nullopt;
  return Outcome{{r.cross_nm, r.inbound_s, u.inbound.wca_deg}};
}

/// The observations that there are, as an array.
struct SeenNumbers {
  explicit SeenNumbers(const Observed& o)
      : has{o.cross_nm.has_value(), o.inbound_s.has_value(), o.held_wca_deg.has_value()},
        v{o.cross_nm.value_or(0.0), o.inbound_s.value_or(0.0), o.held_wca_deg.value_or(0.0)},
        pm{o.cross_pm, o.inbound_pm_s, o.wca_pm_deg} {}
  [[nodiscard]] bool usable() const {
    for (int i = 0; i < 3; ++i) {
      if (!has[i]) continue;
      if (!std::isfinite(v[i]) || !(pm[i] > 0.0) || !std::isfinite(pm[i])) return false;
    }
    if (has[1] && !(v[1] > 0.0)) return false;
    return !has[2] || std::abs(v[2]) < 90.0;
  }

  bool has[3];
  double v[3];
  double pm[3];
};

/// Sum of squares of (seen - predicted) / ±.
double misfit_of(const SeenNumbers& seen, const Outcome& outcome) {
  double sum = 0.0;
  for (int i = 0; i < 3; ++i) {
    const double off = seen.has[i] ? (seen.v[i] - outcome.v[i]) / seen.pm[i] : 0.0;
    sum += off * off;
  }
  return sum;
}

/// The leg at a trial wind: misfit, and what its slopes make of the ±.
struct Trial {
  bool exists = false;
  double misfit = kInfinity;
  Outcome outcome{};
  // Sum over the observations of slope slope^T / pm^2, and of slope residual / pm^2.
  double ee = 0.0;
  double en = 0.0;
  double nn = 0.0;
  Vec2 pull{0.0, 0.0};
  [[nodiscard]] double det() const { return ee * nn - en * en; }
};

Trial try_wind(const Setup& flown, const FlownLeg& leg, const SeenNumbers& seen, Vec2 from) {
  constexpr double kStepKt = 1e-3;
  Trial t;
  const std::optional<Outcome> here = outcome_in(flown, leg, from);
  if (!here) return t;
  t.exists = true;
  t.outcome = *here;
  t.misfit = misfit_of(seen, *here);
  std::optional<Outcome> side[4];
  for (int k = 0; k < 4; ++k) {
    const double step = k % 2 ? -kStepKt : kStepKt;
    side[k] = outcome_in(flown, leg, from + (k < 2 ? Vec2{step, 0.0} : Vec2{0.0, step}));
    if (!side[k]) return t;  // at the edge of what can be flown: nothing is told
  }
  for (int i = 0; i < 3; ++i) {
    if (!seen.has[i]) continue;
    const double scale = 1.0 / (2.0 * kStepKt * seen.pm[i]);
    const double e = (side[0]->v[i] - side[1]->v[i]) * scale;
    const double n = (side[2]->v[i] - side[3]->v[i]) * scale;
    const double off = (seen.v[i] - here->v[i]) / seen.pm[i];
    t.ee += e * e;
    t.en += e * n;
    t.nn += n * n;
    t.pull = t.pull + Vec2{e, n} * off;
  }
  return t;
}

/// Inverse of the weights: variances of the wind's east and north parts.
WindCandidate candidate_at(const Setup& flown, Vec2 from, const Trial& t) {
  WindCandidate c;
  c.wind = wind_of(from);
  c.misfit = t.misfit;
  c.cross_nm = t.outcome.v[0];
  c.inbound_s = t.outcome.v[1];
  c.held_wca_deg = t.outcome.v[2];
  const double det = t.det();
  if (!(det > 1e-14 * (t.ee + t.nn) * (t.ee + t.nn))) {
    c.speed_pm_kt = c.from_pm_deg = c.across_pm_kt = c.major_kt = c.minor_kt = kInfinity;
    return c;
  }
  const double ee = t.nn / det;
  const double en = -t.en / det;
  const double nn = t.ee / det;
  const auto deviation = [&](Vec2 d) {
    const double variance = ee * d.x * d.x + 2.0 * en * d.x * d.y + nn * d.y * d.y;
    return variance > 0.0 ? std::sqrt(variance) : 0.0;
  };
  const double mean = 0.5 * (ee + nn);
  const double half = std::sqrt(0.25 * (ee - nn) * (ee - nn) + en * en);
  c.major_kt = std::sqrt(mean + half);
  // Their product is the determinant of the inverse: no difference of like numbers.
  c.minor_kt = 1.0 / (c.major_kt * std::sqrt(det));
  const double axis = 0.5 * std::atan2(2.0 * en, nn - ee) * kRadToDeg;
  c.major_deg = axis <= 0.0 ? axis + 180.0 : axis;
  c.speed_pm_kt = deviation(along(c.wind.from_deg));
  const double sideways = deviation(along(c.wind.from_deg + 90.0));
  c.from_pm_deg = c.wind.speed_kt > 0.0 ? sideways / c.wind.speed_kt * kRadToDeg : kInfinity;
  c.across_pm_kt = deviation(flown.holding_axis);
  return c;
}

class Inference {
 public:
  Inference(const Setup& flown, const FlownLeg& leg, const Observed& observed)
      : flown_(flown), leg_(leg), seen_(observed), natural_(flown, leg) {}
  InferredWind run();

 private:
  /// Every wind that gives the two observations other than `left_out` exactly.
  void pair_roots(int left_out, std::vector<Vec2>& roots);
  void add_root(double x, double w, const bool use[3], std::vector<Vec2>& roots) const;
  /// Where the headwind does not show across the course: it turns no heading, as the leg
  /// starts along the inbound course, and nothing waits for a distance along it, or the wait is
  /// flown along the course. `sine`: of the correction held.
  [[nodiscard]] bool flat_piece(const Piece& piece, double sine) const {
    const bool waits = (leg_.clock == Clock::abeam || leg_.clock == Clock::distance) &&
                       std::abs(natural_.heading.sin - sine) >= kFlatSine;
    return std::abs(natural_.start.sin) < kFlatSine && !(waits && piece.straight);
  }
  /// Miss and correction agree there, within twice their ±.
  [[nodiscard]] bool flat_fits(const LegEquations& equations, double sine, Interval w) const;
  /// The wind that fits best of every twelfth part of circle and strength.
  [[nodiscard]] Vec2 best_of_grid() const;
  /// Least squares from a start; true where it settled, in `from` and `trial`.
  bool fit(Vec2& from, Trial& trial) const;
  void fit_three(const std::vector<Vec2>& starts);
  /// Two observations that no wind gives exactly: some wind within twice their ±, if there
  /// is one. Around the least misfit part of the wind changes nothing to first order, so it
  /// gets no uncertainty.
  void nearly_explained();
  [[nodiscard]] NoWind verdict() const;

  const Setup& flown_;
  const FlownLeg& leg_;
  const SeenNumbers seen_;
  const NaturalLeg natural_;
  InferredWind result_;
  bool complete_ = true;
  bool flat_ = false;
};

void Inference::add_root(double x, double w, const bool use[3], std::vector<Vec2>& roots) const {
  const double course = flown_.scenario.inbound_course_deg;
  const Vec2 from = (along(course + 90.0) * x + along(course) * w) * flown_.tas_kt;
  if (!(length(from) <= kMostWindKt + 1e-9)) return;
  for (const Vec2 known : roots) {
    if (length(from - known) < kSameKt) return;
  }
  // The formulas' pieces reach beyond where they hold: the flight itself decides.
  const std::optional<Outcome> flown = outcome_in(flown_, leg_, from);
  if (!flown) return;
  constexpr double kFits[] = {1e-6, 1e-4, 1e-6};
  for (int i = 0; i < 3; ++i) {
    const double size = std::fmax(1.0, std::abs(seen_.v[i]));
    if (use[i] && !(std::abs(flown->v[i] - seen_.v[i]) <= kFits[i] * size)) return;
  }
  roots.push_back(from);
}

void Inference::pair_roots(int left_out, std::vector<Vec2>& roots) {
  const bool use[3] = {left_out != 0, left_out != 1, left_out != 2};
  Wanted wanted;
  if (use[0]) wanted.cross = seen_.v[0] / flown_.turn.radius_nm;
  if (use[1]) wanted.inbound = seen_.v[1] * flown_.turn.rate_deg_s * kDegToRad;
  if (use[2]) wanted.sine = sin_deg(seen_.v[2]);
  const double most = kMostWindKt / flown_.tas_kt;
  const double side = most < 1.0 ? most : 1.0;
  Box box{{-side, side}, {-most, side}};
  if (wanted.sine) box.x = {*wanted.sine, *wanted.sine};
  const auto found = [&](double x, double w) { add_root(x, w, use, roots); };
  for (int i = 0; i < 16; ++i) {
    const bool right = i & 1;
    const bool straight = i & 8;
    const double way = right ? 1.0 : -1.0;
    if (!leg_.short_way && way != natural_.sign) continue;
    if (leg_.clock == Clock::level && !straight) continue;
    // Where heading and start course differ by more than half a circle, a circle less.
    const double offset = way * (natural_.heading_rad - natural_.start_rad);
    const double lowest = std::floor((offset + 0.5 * kPi) / kTurnRad);
    const Piece piece{way, (i & 2 ? 1.0 : 0.0) - lowest, i & 4 ? 1.0 : 0.0, straight,
                      leg_.short_way ? kPi : kTurnRad};
    const LegEquations equations(natural_, piece, wanted, most);
    if (use[0] && use[2] && flat_piece(piece, *wanted.sine)) {
      flat_ = flat_ || flat_fits(equations, *wanted.sine, box.y);
      continue;
    }
    BoxSearch search(equations, BoxBudget{kFinest, kMostBoxes - result_.boxes}, found);
    search.search(box);
    result_.boxes += search.boxes();
    complete_ = complete_ && search.complete();
  }
}

bool Inference::flat_fits(const LegEquations& equations, double sine, Interval w) const {
  if (!equations.over({{sine, sine}, w}).possible) return false;
  const TwoEquations<double> e = equations.at(sine, 0.0);
  const double miss = e.value[1] * flown_.turn.radius_nm / seen_.pm[0];
  const double per_pm = e.slope[1][0] * cosine_of_sine(sine) * kDegToRad * flown_.turn.radius_nm *
                        seen_.pm[2] / seen_.pm[0];
  return std::abs(miss) <= 2.0 * std::sqrt(1.0 + per_pm * per_pm);
}

bool Inference::fit(Vec2& from, Trial& trial) const {
  trial = try_wind(flown_, leg_, seen_, from);
  double damping = 0.0;
  for (int i = 0; i < 40 && trial.exists; ++i) {
    const double ee = trial.ee * (1.0 + damping);
    const double nn = trial.nn * (1.0 + damping);
    const double det = ee * nn - trial.en * trial.en;
    const Vec2 step = {(trial.pull.x * nn - trial.pull.y * trial.en) / det,
                       (trial.pull.y * ee - trial.pull.x * trial.en) / det};
    if (!std::isfinite(step.x) || !std::isfinite(step.y)) return false;
    if (length(step) < 1e-7) return length(from) <= kMostWindKt;
    const Trial next = try_wind(flown_, leg_, seen_, from + step);
    if (next.exists && next.misfit < trial.misfit) {
      from = from + step;
      trial = next;
      damping *= 0.1;
      if (damping < 1e-4) damping = 0.0;
    } else {
      damping = damping > 0.0 ? damping * 8.0 : 1e-3;
    }
  }
  return false;
}

Vec2 Inference::best_of_grid() const {
  Vec2 best{0.0, 0.0};
  double least = kInfinity;
  for (int i = 0; i < 12 * 12; ++i) {
    const int ring = i / 12;
    const Vec2 from = along(30.0 * (i % 12)) * (kMostWindKt / 12.0 * ring);
    const std::optional<Outcome> outcome = outcome_in(flown_, leg_, from);
    if (!outcome || !(misfit_of(seen_, *outcome) < least)) continue;
    least = misfit_of(seen_, *outcome);
    best = from;
  }
  return best;
}

void Inference::fit_three(const std::vector<Vec2>& starts) {
  for (Vec2 from : starts) {
    Trial trial;
    if (!fit(from, trial)) continue;
    bool known = false;
    for (const WindCandidate& c : result_.candidates) {
      known = known || length(from - from_vector(c.wind)) < 0.01;
    }
    if (!known) result_.candidates.push_back(candidate_at(flown_, from, trial));
  }
}

void Inference::nearly_explained() {
  // Valleys without a slope along them: a walk by compass, with ever smaller steps.
  Vec2 from = best_of_grid();
  Trial trial = try_wind(flown_, leg_, seen_, from);
  double step = 0.5 * kMostWindKt / 12.0;
  for (int i = 0; i < 100 && step > 0.05 && trial.misfit > 0.5 * kMostMisfit; ++i) {
    Vec2 best = from;
    for (int k = 0; k < 8; ++k) {
      const Vec2 there = from + along(45.0 * k) * step;
      const std::optional<Outcome> outcome = outcome_in(flown_, leg_, there);
      if (!outcome || length(there) > kMostWindKt) continue;
      const double misfit = misfit_of(seen_, *outcome);
      if (!(misfit < trial.misfit)) continue;
      best = there;
      trial.outcome = *outcome;
      trial.misfit = misfit;
    }
    if (best == from) step *= 0.5;
    from = best;
  }
  if (!(trial.misfit <= kMostMisfit)) return;
  trial.ee = trial.en = trial.nn = 0.0;
  result_.candidates.push_back(candidate_at(flown_, from, trial));
}

NoWind Inference::verdict() const {
  if (!complete_) return NoWind::gave_up;
  if (flat_ && !seen_.has[1]) return NoWind::same_part;
  if (result_.candidates.empty()) return NoWind::unexplained;
  const WindCandidate& best = result_.candidates.front();
  if (best.misfit > kMostMisfit) return NoWind::contradict;
  if (!(best.major_kt <= kLoosestKt)) return NoWind::loose;
  if (!(best.from_pm_deg <= kLoosestDeg)) return NoWind::light;
  return NoWind::none;
}

InferredWind Inference::run() {
  result_.leg = leg_;
  int count = 0;
  for (const bool has : seen_.has) count += has;
  if (count == 0) result_.why = NoWind::nothing;
  if (count == 1) result_.why = NoWind::one_only;
  if (!seen_.usable()) result_.why = NoWind::bad_input;
  if (count < 2 || result_.why == NoWind::bad_input) return result_;
  const bool three = count == 3;
  std::vector<Vec2> roots;
  for (int left_out = 0; left_out < 3; ++left_out) {
    if (!three && seen_.has[left_out]) continue;
    pair_roots(left_out, roots);
  }
  if (three) {
    roots.push_back(from_vector(flown_.wind));
    roots.push_back(best_of_grid());
    fit_three(roots);
  } else {
    for (const Vec2 from : roots) {
      result_.candidates.push_back(candidate_at(flown_, from, try_wind(flown_, leg_, seen_, from)));
    }
  }
  if (!three && complete_ && !flat_ && result_.candidates.empty()) nearly_explained();
  // A handful: insertion keeps the code small.
  std::vector<WindCandidate>& all = result_.candidates;
  const auto before = [three](const WindCandidate& a, const WindCandidate& b) {
    return three ? a.misfit < b.misfit : a.wind.speed_kt < b.wind.speed_kt;
  };
  for (std::size_t i = 1; i < all.size(); ++i) {
    for (std::size_t k = i; k > 0 && before(all[k], all[k - 1]); --k) {
      const WindCandidate swap = all[k];
      all[k] = all[k - 1];
      all[k - 1] = swap;
    }
  }
  // What fits much worse than the best does not explain it.
  while (three && all.size() > 1 && all.back().misfit > kMostMisfit) all.pop_back();
  result_.why = verdict();
  return result_;
}

}  // namespace

std::string_view name_of(NoWind why) {
  constexpr std::string_view kNames[] = {
      "none",      "nothing",     "one-only",   "bad-input", "no-leg", "parallel", "by-station",
      "same-part", "unexplained", "contradict", "loose",     "light",  "gave-up"};
  return kNames[static_cast<int>(why)];
}

namespace {

bool dme_ends_it(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance && u.scenario.measure == Measure::dme;
}

InferredWind not_inferred(NoWind why) {
  InferredWind none;
  none.why = why;
  return none;
}

bool by_station(LegEnd end) { return end == LegEnd::dme || end == LegEnd::radial; }

}  // namespace

std::optional<FlownLeg> entry_leg(const Setup& u) {
  const std::optional<EntryPlan> plan = scenario_plan(u);
  if (!plan || plan->kind == EntryKind::parallel) return std::nullopt;
  if (dme_ends_it(u) && !u.scenario.time_s) return std::nullopt;
  FlownLeg leg;
  leg.heading_deg = plan->heading_deg;
  leg.time_s = plan->time_s;
  if (plan->kind == EntryKind::direct) {
    leg.short_way = false;
    leg.clock = Clock::abeam;
  } else {
    leg.clock = u.scenario.timer == Timer::fix ? Clock::fix : Clock::level;
  }
  if (u.leg.kind == Leg::Kind::distance && !u.scenario.time_s) {
    leg.clock = Clock::distance;
    leg.distance_nm = u.leg.value;
  }
  return leg;
}

FlownLeg lap_leg(const Setup& u, double heading_deg, double time_s) {
  FlownLeg leg{false, false, Clock::abeam, heading_deg, time_s, 0.0};
  if (u.leg.kind == Leg::Kind::distance) {
    leg.clock = Clock::distance;
    leg.distance_nm = u.leg.value;
  }
  return leg;
}

Setup in_wind(const Setup& flown, Wind wind) {
  Scenario s = flown.scenario;
  refer_winds_to_magnetic(s);
  s.wind_from_deg = wind.from_deg;
  s.wind_kt = wind.speed_kt;
  s.entry = flown.entry;
  return make_setup(s);
}

Rollout leg_rollout(const Setup& u, const FlownLeg& leg) {
  const WindTriangle& start = leg.after_arrival ? u.arrival : u.inbound;
  if (!start.exists || !u.inbound.exists) return {};
  const Side turns = u.scenario.turns;
  const TurnMotion out =
      turn_motion(u, start.heading_deg, leg.heading_deg,
                  leg.short_way ? short_way(u, start.heading_deg, leg.heading_deg) : turns);
  const TurnMotion in = turn_motion(u, leg.heading_deg, u.inbound.heading_deg, turns);
  const Vec2 ground = ground_velocity(u, leg.heading_deg);
  double straight_s = leg.time_s;
  if (leg.clock == Clock::fix) straight_s = std::fmax(0.0, leg.time_s - out.duration_s);
  if (leg.clock == Clock::distance) straight_s = 0.0;
  if (leg.clock == Clock::abeam || leg.clock == Clock::distance) {
    const double gap =
        (leg.clock == Clock::distance ? leg.distance_nm : 0.0) - u.to_go_nm(out.motion_nm);
    if (gap > 1e-9) {  // as the pilot in core/flight.cpp: so near is there
      const double wait_s = gap / u.to_go_nm(ground);
      if (!(wait_s >= 0.0 && wait_s <= kLongestS)) return {};
      straight_s += wait_s;
    }
  }
  const Vec2 at = out.motion_nm + ground * straight_s + in.motion_nm;
  const double to_go = u.to_go_nm(at);
  return {true,
          u.cross_nm(at),
          to_go,
          to_go / (u.inbound.groundspeed_kt * kNmPerSecondPerKnot),
          out.duration_s + straight_s + in.duration_s,
          at};
}

InferredWind infer_wind(const Setup& flown, const FlownLeg& leg, const Observed& seen) {
  if (!(flown.tas_kt > 0.0) || !std::isfinite(leg.heading_deg) || !std::isfinite(leg.time_s)) {
    return not_inferred(NoWind::no_leg);
  }
  return Inference(flown, leg, seen).run();
}

InferredWind infer_wind(const Setup& flown, const Observed& seen) {
  const std::optional<FlownLeg> leg = entry_leg(flown);
  if (leg) return infer_wind(flown, *leg, seen);
  // Else there would be a leg.
  return not_inferred(flown.entry == EntryKind::parallel ? NoWind::parallel
                      : scenario_plan(flown)             ? NoWind::by_station
                                                         : NoWind::no_leg);
}

InferredWind infer_wind(const Setup& flown, const Flight& flight, const Observed& seen) {
  if (flight.lap_count == 0) {
    const bool parallel = flown.entry == EntryKind::parallel;
    if (flight.rollout.exists && !parallel && by_station(flight.ended_by)) {
      return not_inferred(NoWind::by_station);
    }
    return infer_wind(flown, seen);
  }
  const Lap& lap = flight.laps[static_cast<unsigned>(flight.lap_count - 1)];
  if (by_station(lap.ended_by)) return not_inferred(NoWind::by_station);
  FlownLeg leg = lap_leg(flown, lap.outbound_heading_deg, lap.outbound_s);
  // An exact lap is flown by the clock, also where the book's ends at a distance.
  if (lap.ended_by == LegEnd::time) leg.clock = Clock::abeam;
  return infer_wind(flown, leg, seen);
}

std::optional<OnTheLine> on_the_line(const Setup& flown, const FlownLeg& leg,
                                     const Observed& observed) {
  const SeenNumbers seen(observed);
  const int which = seen.has[0] ? 0 : seen.has[1] ? 1 : 2;
  if (observed.count() != 1 || !seen.usable()) return std::nullopt;
  const double course = flown.scenario.inbound_course_deg;
  const bool calm = flown.wind.speed_kt < 0.5;
  const double line = !calm ? flown.wind.from_deg : which == 1 ? course : wrap_360(course + 90.0);
  const auto off = [&](double speed) {
    const std::optional<Outcome> o = outcome_in(flown, leg, along(line) * speed);
    return o ? o->v[which] - seen.v[which] : std::numeric_limits<double>::quiet_NaN();
  };
  constexpr double kFits[] = {1e-6, 1e-3, 1e-6};
  std::optional<OnTheLine> best;
  double before = off(-kMostWindKt);
  for (double speed = 1.0 - kMostWindKt; speed <= kMostWindKt; speed += 1.0) {
    const double now = off(speed);
    double root = std::numeric_limits<double>::quiet_NaN();
    if (now == 0.0) {
      root = speed;
    } else if (before * now < 0.0) {
      root = bracketed_root(off, speed - 1.0, speed, before, now);
    }
    before = now;
    // A jump between two ways of turning is a change of sign, too.
    if (!(std::abs(off(root)) <= kFits[which])) continue;
    const double wanted = calm ? 0.0 : flown.wind.speed_kt;
    if (!best || std::abs(root - wanted) < std::abs(best->speed_kt - wanted)) {
      best = OnTheLine{line, root};
    }
  }
  return best;
}

CommonReading common_reading(const Setup& flown, const InferredWind& inferred,
                             const Observed& seen) {
  CommonReading r;
  // Parts of the wind from the holding side, kt.
  const auto from_holding = [&](Wind wind) { return dot(flown.holding_axis, from_vector(wind)); };
  const double allowed = from_holding(flown.wind);
  if (!seen.cross_nm || std::abs(*seen.cross_nm) <= kOnCourseNm || std::abs(allowed) < 1.0)
    return r;
  const double side = allowed > 0.0 ? 1.0 : -1.0;
  const auto says = [side](double cross) {
    return side * cross < 0.0 ? CommonReading::Says::stronger : CommonReading::Says::weaker;
  };
  r.says = says(*seen.cross_nm);
  if (!inferred.usable() || inferred.candidates.empty()) return r;
  const WindCandidate& c = inferred.candidates.front();
  r.more_kt = side * from_holding(c.wind) - std::abs(allowed);
  const Rollout planned = leg_rollout(flown, inferred.leg);
  if (planned.exists) r.planned_cross_nm = planned.cross_nm;
  if (std::abs(r.more_kt) <= c.across_pm_kt) return r;
  const CommonReading::Says truth =
      r.more_kt > 0.0 ? CommonReading::Says::stronger : CommonReading::Says::weaker;
  r.verdict = r.says == truth ? CommonReading::Verdict::holds : CommonReading::Verdict::misleads;
  r.plan_is_to_blame = r.verdict == CommonReading::Verdict::misleads && r.planned_cross_nm &&
                       says(*seen.cross_nm - *r.planned_cross_nm) == truth;
  return r;
}

NextLap next_lap(const Setup& flown, const InferredWind& inferred, const Observed& seen) {
  NextLap next;
  next.exact.why = NoPlan::no_rule;
  const bool known = inferred.usable() && !inferred.candidates.empty();
  std::optional<double> wca = seen.held_wca_deg;
  std::optional<double> inbound_s = seen.inbound_s;
  Setup u = flown;
  if (known) {
    const WindCandidate& c = inferred.candidates.front();
    u = in_wind(flown, c.wind);
    next.exact = exact_lap(u);
    if (!wca) wca = c.held_wca_deg;
    if (!inbound_s && c.inbound_s > 0.0) inbound_s = c.inbound_s;
  }
  if (wca && std::isfinite(*wca)) {
    next.thumb_heading_deg = wrap_360(flown.hold.outbound_course_deg() - 3.0 * *wca);
  }
  const bool timed = flown.leg.kind == Leg::Kind::time;
  const bool leg_timed = inferred.leg.clock != Clock::distance && inferred.why != NoWind::no_leg &&
                         inferred.why != NoWind::parallel && inferred.why != NoWind::by_station;
  if (timed && leg_timed && inbound_s && std::isfinite(*inbound_s)) {
    const double time_s = inferred.leg.time_s + flown.published_s - *inbound_s;
    next.thumb_time_s = std::fmin(std::fmax(time_s, 0.0), kMostOutboundS);
  }
  if (known && next.thumb_heading_deg && (next.thumb_time_s || !(timed || dme_ends_it(flown)))) {
    next.thumb =
        leg_rollout(u, lap_leg(u, *next.thumb_heading_deg, next.thumb_time_s.value_or(0.0)));
  }
  return next;
}

}  // namespace core
