#include "web/hand_session.h"

#include <algorithm>

#include "core/explain.h"
#include "core/json.h"
#include "core/seeded.h"

namespace web {
namespace {

/// A wind such as people fly in: from a tenth of the circle, 10 to 35 kt by fives, at most a
/// third of the airspeed.
core::Scenario with_wind(core::Scenario s, const HandOptions& options) {
  if (!options.wind_seed) return s;
  const double tas_kt = core::make_setup(s).tas_kt;
  const int most = std::clamp(static_cast<int>(tas_kt / 15.0), 2, 7);
  const std::uint64_t first = core::Seeded(*options.wind_seed).bits();
  const std::uint64_t second = core::Seeded(first).bits();
  s.wind_from_deg = 10.0 * (1.0 + static_cast<double>(first % 36));
  s.wind_kt = 5.0 * (2.0 + static_cast<double>(second % static_cast<unsigned>(most - 1)));
  s.wind_is_true = false;
  s.later_wind.reset();
  return s;
}

}  // namespace

HandSession::HandSession(const core::Scenario& scene, const HandOptions& options)
    : options_(options), worked_(core::work_out(with_wind(scene, options))), flown_(worked_.setup) {
  clock_.set_speed(1.0);
  clock_.range(flown_.start_s(), flown_.end_s());
  clock_.seek(flown_.start_s());
}

bool HandSession::bug(double heading_deg, core::Way way) {
  return flying() && flown_.bug(clock_.t_s(), heading_deg, way);
}
bool HandSession::turn(core::Side side) { return flying() && flown_.turn(clock_.t_s(), side); }
bool HandSession::level() { return flying() && flown_.level(clock_.t_s()); }
bool HandSession::start_stopwatch() { return flying() && flown_.clock(clock_.t_s()); }

void HandSession::speed(double multiplier) { clock_.set_speed(std::fmin(multiplier, kFastest)); }

bool HandSession::seek(double t_s) {
  if (flying()) return false;
  clock_.seek(t_s);
  return true;
}

void HandSession::end() {
  if (!flying()) return;
  const double now = clock_.t_s();
  clock_.pause();
  told_ = core::debrief(worked_.setup, flown_, now);
  exact_.emplace();
  if (!core::fly_exact(worked_.setup, *told_, *exact_)) exact_.reset();
  clock_.range(flown_.start_s(), std::fmax(now, flown_.start_s()));
}

core::HandPicture HandSession::picture() const {
  core::HandPicture p;
  p.flown = &flown_;
  p.until_s = told_ ? told_->end_s : clock_.t_s();
  p.wind_shown = options_.wind_shown || told_.has_value();
  p.told = told_ ? &*told_ : nullptr;
  p.exact = exact_ ? &*exact_ : nullptr;
  return p;
}

std::string HandSession::state() const {
  core::Json j;
  const double now = clock_.t_s();
  const core::HandFlown::Pose at = pose();
  const core::Setup& u = worked_.setup;
  const bool wind_shown = options_.wind_shown || !flying();
  j.open_object()
      .field("phase", flying() ? "flying" : "debrief")
      .field("t_s", now)
      .field("playing", clock_.playing())
      .field("speed", clock_.speed())
      .field("heading_deg", at.heading_deg)
      .field("turning", at.rate_deg_s > 0.0   ? "right"
                        : at.rate_deg_s < 0.0 ? "left"
                                              : "none");
  j.field("bug_deg", flown_.bug_deg());
  j.field("stopwatch_s", flown_.stopwatch_s(now));
  j.field("commands_left", flown_.commands_left())
      .field("over", now >= flown_.end_s())
      .field("wind_shown", wind_shown)
      .key("wind");
  if (wind_shown) {
    j.open_object()
        .field("from_deg", u.wind.from_deg)
        .field("speed_kt", u.wind.speed_kt)
        .close_object();
  } else {
    j.null();
  }
  const std::vector<core::Passage> passed = core::passages(flown_, now);
  j.field("passages", static_cast<int>(passed.size()));
  j.field("passage_nm",
          passed.empty() ? std::nullopt : std::optional<double>(passed.back().distance_nm));
  j.field("summary", core::hand_summary(picture())).close_object();
  return j.take();
}

std::string HandSession::debrief() const {
  if (!told_) return "null";
  core::Json j;
  core::write_debrief(j, worked_.setup, *told_);
  return j.take();
}

std::string HandSession::link() const {
  if (!told_) return core::write_link(worked_.setup.scenario);
  return core::write_link(core::own_scenario(worked_.setup, *told_));
}

}  // namespace web
