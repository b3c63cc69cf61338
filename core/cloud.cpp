#include "core/cloud.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/quantile.h"

namespace core {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

std::vector<double> numbers_of(const std::vector<double>& values) {
  std::vector<double> out;
  out.reserve(values.size());
  for (const double v : values) {
    if (!std::isnan(v)) out.push_back(v);
  }
  return out;
}

CloudSummary::Spread spread_of(std::vector<double> values) {
  if (values.empty()) return {kNan, kNan, kNan, kNan, kNan};
  const auto n = static_cast<double>(values.size());
  double sum = 0.0;
  for (const double v : values) sum += v;
  const double mean = sum / n;
  double squares = 0.0;
  for (const double v : values) squares += (v - mean) * (v - mean);
  const double sd = n > 1.0 ? std::sqrt(squares / (n - 1.0)) : 0.0;
  const double low = at_share(values, 0.025);
  const double middle = at_share(values, 0.5);
  return {mean, sd, low, middle, at_share(values, 0.975)};
}

}  // namespace

void Cloud::set(const Setup& setup, const Amounts& spread, std::uint32_t seed) {
  const std::optional<EntryPlan> plan = scenario_plan(setup);
  set(setup, plan.value_or(EntryPlan{}), spread, seed);
  if (why_ == NoCloud::none && !plan) why_ = NoCloud::no_plan;
}

void Cloud::set(const Setup& setup, const EntryPlan& plan, const Amounts& spread,
                std::uint32_t seed) {
  setup_ = setup;
  plan_ = plan;
  why_ = why_no_cloud(setup);
  Amounts sd;
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    const double wanted = spread.of[k] > 0.0 ? spread.of[k] : 0.0;  // a NaN is none
    spread_.of[k] = std::min(wanted, kWidest.of[k]);
    sd.of[k] = spread_.of[k] / kSdsIn19Of20;
  }
  frame_ = cloud_frame(setup_, plan_, sd);
  for (Draws* draws : {&first_, &second_}) {
    draws->aim(seed, sd[Unknown::wind_from], sd[Unknown::heading]);
  }
  cross_nm_.clear();
  to_go_nm_.clear();
  inbound_s_.clear();
  shared_ = 0;
  const Rollout planned = why_ == NoCloud::none ? deviated_rollout(setup_, plan_, {}) : Rollout{};
  cross_sums_ = ShareSums(planned.cross_nm);
  inbound_sums_ = ShareSums(planned.inbound_s);
}

void Cloud::fly(const Columns& columns, std::size_t first, std::size_t end, double* cross_nm,
                double* to_go_nm, double* inbound_s) const {
  if (setup_.roll_in.rate_rad_s == 0.0) {
    fly_cloud(frame_, columns, first, end, cross_nm, to_go_nm, inbound_s);
    return;
  }
  for (std::size_t i = first; i < end; ++i) {
    Amounts off;
    for (std::size_t k = 0; k < kUnknowns; ++k) off.of[k] = frame_.sd.of[k] * columns.z[k][i];
    const Rollout r = deviated_rollout(setup_, plan_, off);
    *cross_nm++ = r.exists ? r.cross_nm : kNan;
    *to_go_nm++ = r.exists ? r.to_go_nm : kNan;
    *inbound_s++ = r.exists ? r.inbound_s : kNan;
  }
}

void Cloud::fly_more(int count) {
  if (why_ != NoCloud::none || count <= 0) return;
  const std::size_t first = cross_nm_.size();
  const std::size_t end = std::min<std::size_t>(first + static_cast<std::size_t>(count), kMost);
  first_.reach(end);
  cross_nm_.resize(end);
  to_go_nm_.resize(end);
  inbound_s_.resize(end);
  fly(first_.columns(), first, end, cross_nm_.data() + first, to_go_nm_.data() + first,
      inbound_s_.data() + first);
}

Vec2 Cloud::rollout(int flight) const {
  const auto i = static_cast<std::size_t>(flight);
  return setup_.holding_axis * cross_nm_[i] + setup_.outbound_axis * to_go_nm_[i];
}

Amounts Cloud::off(int flight) const {
  const Columns columns = first_.columns();
  Amounts out;
  for (std::size_t k = 0; k < kUnknowns; ++k) out.of[k] = frame_.sd.of[k] * columns.z[k][flight];
  return out;
}

CloudSummary Cloud::summary(double tolerance_nm) const {
  CloudSummary out;
  out.drawn = drawn();
  std::vector<double> cross = numbers_of(cross_nm_);
  out.flown = static_cast<int>(cross.size());
  out.inside = static_cast<int>(std::count_if(
      cross.begin(), cross.end(), [&](double v) { return std::abs(v) <= tolerance_nm; }));
  out.inside_share = out.drawn > 0 ? static_cast<double>(out.inside) / out.drawn : kNan;
  out.cross_nm = spread_of(std::move(cross));
  out.inbound_s = spread_of(numbers_of(inbound_s_));
  return out;
}

void Cloud::share_more(int count) {
  if (why_ != NoCloud::none || count <= 0) return;
  const int end = std::min(count, kMost - shared_) + shared_;
  fly_more(end - drawn());
  second_.reach(static_cast<std::size_t>(end));
  constexpr std::size_t kRun = 128;
  constexpr std::size_t kSets = kUnknowns + 1;  // the second numbers, then one unknown of them each
  std::array<std::array<double, kRun>, kSets> cross;
  std::array<std::array<double, kRun>, kSets> inbound;
  std::array<double, kRun> to_go;
  const Columns a = first_.columns();
  const Columns b = second_.columns();
  const auto last = static_cast<std::size_t>(end);
  for (auto first = static_cast<std::size_t>(shared_); first < last; first += kRun) {
    const std::size_t next = std::min(first + kRun, last);
    for (std::size_t k = 0; k < kSets; ++k) {
      fly(k < kUnknowns ? a.with(static_cast<Unknown>(k), b) : b, first, next, cross[k].data(),
          to_go.data(), inbound[k].data());
    }
    for (std::size_t i = first; i < next; ++i) {
      std::array<double, kUnknowns> mixed_cross{};
      std::array<double, kUnknowns> mixed_inbound{};
      for (std::size_t k = 0; k < kUnknowns; ++k) {
        mixed_cross[k] = cross[k][i - first];
        mixed_inbound[k] = inbound[k][i - first];
      }
      cross_sums_.add(cross_nm_[i], cross[kUnknowns][i - first], mixed_cross);
      inbound_sums_.add(inbound_s_[i], inbound[kUnknowns][i - first], mixed_inbound);
    }
  }
  shared_ = end;
}

}  // namespace core
