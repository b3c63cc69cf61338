#include "web/session.h"

#include <algorithm>

#include "core/evaluate.h"
#include "core/explain.h"
#include "core/svg.h"

namespace web {

using core::Handle;
using core::Scenario;
using core::Vec2;

namespace {

constexpr std::size_t kMostHistory = 200;
/// Radius within which a handle is taken, px: a mouse, and a finger (44 px across).
constexpr double kFineReachPx = 14.0;
constexpr double kCoarseReachPx = 24.0;
constexpr double kProbeFinePx = 14.0;
constexpr double kProbeCoarsePx = 26.0;
/// A press that moves less than this is a tap.
constexpr double kTapPx = 6.0;
/// Nobody looks farther from the fix than this: a flight stays well within it.
constexpr double kFarthestNm = 5000.0;
constexpr double kLeastPxPerNm = 4.0;
constexpr double kMostPxPerNm = 4000.0;

}  // namespace

Session::Session() { open({}); }

unsigned Session::open(std::string_view link) {
  own_.reset();
  Scene scene = link_scene(link);
  scene.history.front() = held(scene.history.front());
  return show(std::move(scene));
}

unsigned Session::lock(std::string_view keys, std::string_view link) {
  locks_.set(keys, link);
  return kPicture;
}

/// What is fixed is the person's scene, not those that are visited.
Scenario Session::held(const Scenario& wanted) const { return own_ ? wanted : locks_.held(wanted); }

unsigned Session::visit(std::string_view link) {
  if (!own_) own_ = Scene{history_, now_, problems_};
  return show(link_scene(link));
}

unsigned Session::back() {
  if (!own_) return kNothing;
  Scene own = std::move(*own_);
  own_.reset();
  return show(std::move(own));
}

Session::Scene Session::link_scene(std::string_view link) {
  core::ParsedLink parsed = core::parse_link(link);
  return {{parsed.scenario}, 0, std::move(parsed.problems)};
}

unsigned Session::show(Scene scene) {
  history_ = std::move(scene.history);
  now_ = scene.now;
  problems_ = std::move(scene.problems);
  last_key_.clear();
  own_view_ = false;
  posed_ = true;
  clock_.pause();
  work_out(history_[now_]);
  return kScenario | kPicture | kClock;
}

void Session::work_out(const Scenario& scenario) {
  drop_hand();
  worked_ = core::work_out(scenario);
  area_.reset();
  const core::Track& track = worked_.flown.track;
  clock_.range(track.start_s(), track.end_s());
  if (posed_) pose();
  probing_ = false;
  growing_ = false;
  if (dragged_ == Handle::none && !own_view_) refit();
}

/// Part of the way along the outbound leg, where heading and track part company.
void Session::pose() {
  const core::Flight& f = worked_.flown;
  clock_.seek(f.level_s + 0.5 * (f.entry_time_s - f.level_s));
}

/// Worked out once for a scenario, and only while its layer is on.
const core::ProtectedArea* Session::area() {
  if (!layers_.area) return nullptr;
  if (!area_) area_.emplace(core::area_of(worked_.setup));
  return &*area_;
}

/// The page lays its zoom buttons over the picture where there is room for them.
bool Session::has_tools() const {
  constexpr double kToolsFromPx = 560.0;
  return view_.width_px >= kToolsFromPx;
}

void Session::refit() {
  if (hand_) {
    view_ = core::fitted_for_hand(hand_->worked().setup, view_.width_px, view_.height_px);
    view_ = core::widened_to(view_, hand_->pose().at);
    wind_corner_ = core::emptiest_corner(hand_->worked(), view_, has_tools());
    return;
  }
  view_ = core::fitted(worked_, view_.width_px, view_.height_px, layers_, area(),
                       beside_ ? &*beside_ : nullptr);
  wind_corner_ = core::emptiest_corner(worked_, view_, has_tools(), layers_);
}

void Session::drop_problem(std::string_view key) {
  problems_.erase(std::remove_if(problems_.begin(), problems_.end(),
                                 [&](const core::Problem& p) { return p.key == key; }),
                  problems_.end());
}

unsigned Session::adopt(const Scenario& wanted, std::string_view key, bool midway) {
  const Scenario scenario = held(wanted);
  const bool joins = !last_key_.empty() && last_key_ == key;
  if (scenario == history_[now_]) {
    if (!midway) last_key_.clear();
    return kNothing;
  }
  if (!joins) {
    history_.resize(now_ + 1);
    history_.push_back(scenario);
    if (history_.size() > kMostHistory) history_.erase(history_.begin());
    now_ = history_.size() - 1;
  } else {
    history_[now_] = scenario;
  }
  last_key_ = midway ? key : std::string_view();
  work_out(scenario);
  return kScenario | kPicture | kClock;
}

unsigned Session::set(std::string_view key, std::string_view text, bool midway) {
  const std::size_t before = problems_.size();
  drop_problem(key);
  Scenario s = scenario();
  core::Problem problem;
  if (!core::set_value(s, key, text, problem)) {
    problems_.push_back(std::move(problem));
    return kScenario;
  }
  const unsigned changed = adopt(s, key, midway);
  return problems_.size() == before ? changed : changed | kScenario;
}

unsigned Session::choose(std::string_view plan) {
  const std::optional<core::PlanId> id = core::plan_id(plan);
  if (!id) return kNothing;
  const Scenario chosen = core::choose_plan(worked_, *id);
  // Half of a plan is another plan.
  if (held(chosen) != chosen) return kNothing;
  drop_problem("heading");
  drop_problem("time");
  drop_problem("rule");
  return adopt(chosen, {}, false) | kScenario;
}

unsigned Session::undo() {
  if (!can_undo()) return kNothing;
  last_key_.clear();
  work_out(history_[--now_]);
  return kScenario | kPicture | kClock;
}

unsigned Session::redo() {
  if (!can_redo()) return kNothing;
  last_key_.clear();
  work_out(history_[++now_]);
  return kScenario | kPicture | kClock;
}

unsigned Session::reset() {
  problems_.clear();
  own_view_ = false;
  posed_ = true;
  clock_.pause();
  const unsigned changed = adopt(Scenario{}, {}, false);
  if (changed == kNothing) {
    pose();
    refit();
  }
  return changed | kScenario | kPicture | kClock;
}

std::string Session::link() const { return core::write_link(scenario()); }

std::string Session::report(bool more) const {
  // The area costs more than all the rest: while dragging, only for who looks at it.
  core::ReportParts parts;
  parts.more = more;
  parts.area = layers_.area;
  // What the picture does not say of the flight its words do not say either.
  parts.flight = flight_ && layers_.miss;
  return core::evaluate(worked_, problems_, parts);
}

std::string Session::needle() const {
  if (!hand_) return core::needle_text(worked_, clock_.t_s());
  const core::HandFlown::Pose at = hand_->pose();
  return core::needle_text(hand_->worked().setup, at.at, at.heading_deg);
}

unsigned Session::resize(double width_px, double height_px) {
  if (!(width_px >= 1.0 && height_px >= 1.0 && width_px < 1e5 && height_px < 1e5)) return kNothing;
  if (width_px == view_.width_px && height_px == view_.height_px) return kNothing;
  view_.width_px = width_px;
  view_.height_px = height_px;
  if (!own_view_) refit();
  return kPicture;
}

unsigned Session::fit() {
  own_view_ = false;
  refit();
  return kPicture;
}

unsigned Session::zoom(double x_px, double y_px, double factor) {
  if (!std::isfinite(x_px) || !std::isfinite(y_px) || !(factor > 0.0) || !std::isfinite(factor)) {
    return kNothing;
  }
  const Vec2 px = {x_px, y_px};
  const Vec2 fixed = view_.to_nm(px);
  view_.px_per_nm = std::clamp(view_.px_per_nm * factor, kLeastPxPerNm, kMostPxPerNm);
  move_view(fixed - view_.to_nm(px));
  return kPicture;
}

void Session::move_view(Vec2 by_nm) {
  const Vec2 to = view_.centre + by_nm;
  view_.centre = {std::clamp(to.x, -kFarthestNm, kFarthestNm),
                  std::clamp(to.y, -kFarthestNm, kFarthestNm)};
  own_view_ = true;
}

Handle Session::hit(double x_px, double y_px, bool coarse) const {
  Handle best = Handle::none;
  double best_px = coarse ? kCoarseReachPx : kFineReachPx;
  for (const Handle handle : {Handle::wind, Handle::inbound, Handle::arrival, Handle::turns}) {
    const std::optional<Vec2> at = handle_px(handle);
    if (!at) continue;
    const double d = core::length(*at - Vec2{x_px, y_px});
    if (d > best_px) continue;
    best_px = d;
    best = handle;
  }
  return best;
}

std::optional<Vec2> Session::handle_px(Handle handle) const {
  if (hand_ || (!own_ && locks_.has(handle))) return std::nullopt;
  const std::optional<Vec2> at = core::handle_at(worked_, options(), handle);
  if (!at) return std::nullopt;
  return view_.to_px(*at);
}

unsigned Session::drag_to(Vec2 px) {
  const Vec2 handle_px = px + grip_px_;
  Scenario s = scenario();
  const auto whole_direction = [](double deg) { return core::wrap_360(std::floor(deg + 0.5)); };
  const double from_fix = core::direction_of(view_.to_nm(handle_px));
  std::string_view key;
  switch (dragged_) {
    case Handle::none:
      return kNothing;
    case Handle::wind: {
      const core::Wind w = core::dialled_wind(options(), handle_px, worked_.setup.wind.from_deg);
      s.wind_from_deg =
          s.wind_is_true ? core::wrap_360(w.from_deg + s.variation_east_deg) : w.from_deg;
      s.wind_kt = w.speed_kt;
      key = "wind";
      break;
    }
    case Handle::inbound:
      s.inbound_course_deg = whole_direction(from_fix + 180.0);
      key = "inbound";
      break;
    case Handle::arrival:
      s.arrival_course_deg = whole_direction(from_fix + 180.0);
      key = "arrive";
      break;
    case Handle::turns:
      // Pulled over the inbound course, the pattern comes along.
      if (worked_.setup.cross_nm(view_.to_nm(handle_px)) >= 0.0) return kNothing;
      s.turns = core::opposite(s.turns);
      key = "turns";
      break;
  }
  drop_problem(key);
  return adopt(s, key, true);
}

unsigned Session::pointer(Phase phase, int id, double x_px, double y_px, bool coarse) {
  if (!std::isfinite(x_px) || !std::isfinite(y_px)) return kNothing;
  const Vec2 at = {x_px, y_px};
  const auto finger =
      std::find_if(fingers_.begin(), fingers_.end(), [&](const Finger& f) { return f.id == id; });
  const bool known = finger != fingers_.end();
  switch (phase) {
    case Phase::down: {
      if (known || fingers_.size() >= 2) return kNothing;
      fingers_.push_back({id, at, at});
      if (fingers_.size() == 2) {
        dragged_ = Handle::none;
        last_key_.clear();
        return kPicture;
      }
      dragged_ = hit(x_px, y_px, coarse);
      if (dragged_ != Handle::none) {
        grip_px_ = handle_px(dragged_).value_or(at) - at;
        last_key_.clear();
      }
      return kPicture;
    }
    case Phase::move: {
      if (!known) {
        if (!fingers_.empty()) return kNothing;
        const Handle was = hovered_;
        const bool was_probing = probing_;
        const double was_probe = probe_s_;
        hovered_ = hit(x_px, y_px, coarse);
        const std::optional<double> t = hovered_ == Handle::none && !hand_
                                            ? core::nearest_time(worked_, view_, at, kProbeFinePx)
                                            : std::nullopt;
        probing_ = t.has_value();
        probe_s_ = t.value_or(0.0);
        const bool same = was == hovered_ && was_probing == probing_ && was_probe == probe_s_;
        return same ? kNothing : kPicture;
      }
      if (fingers_.size() == 2) {
        const Finger& other = fingers_[0].id == id ? fingers_[1] : fingers_[0];
        const Vec2 middle_before = (finger->at + other.at) * 0.5;
        const double apart_before = core::length(finger->at - other.at);
        finger->at = at;
        const Vec2 middle = (at + other.at) * 0.5;
        const double apart = core::length(at - other.at);
        move_view(view_.to_nm(middle_before) - view_.to_nm(middle));
        if (apart_before > 4.0 && apart > 4.0) zoom(middle.x, middle.y, apart / apart_before);
        return kPicture;
      }
      const Vec2 before = finger->at;
      finger->at = at;
      if (dragged_ != Handle::none) return drag_to(at) | kPicture;
      if (core::length(at - finger->down) < kTapPx) return kNothing;
      move_view(view_.to_nm(before) - view_.to_nm(at));
      return kPicture;
    }
    case Phase::up:
    case Phase::cancel: {
      if (!known) return kNothing;
      const bool tapped = phase == Phase::up && dragged_ == Handle::none && fingers_.size() == 1 &&
                          core::length(finger->at - finger->down) < kTapPx;
      const Vec2 down = finger->down;
      fingers_.erase(finger);
      unsigned changed = kPicture;
      if (dragged_ != Handle::none) {
        const bool still = core::length(at - down) < kTapPx;
        if (dragged_ == Handle::turns && phase == Phase::up && still) {
          Scenario s = scenario();
          s.turns = core::opposite(s.turns);
          changed |= adopt(s, "turns", false);
        }
        dragged_ = Handle::none;
        last_key_.clear();
        changed |= kScenario;  // settled: the page may now write the address
        if (!own_view_) refit();
      }
      hovered_ = coarse ? Handle::none : hit(x_px, y_px, false);
      if (tapped) {
        const std::optional<double> t =
            core::nearest_time(worked_, view_, at, coarse ? kProbeCoarsePx : kProbeFinePx);
        probing_ = t.has_value();
        probe_s_ = t.value_or(0.0);
      }
      return changed;
    }
    case Phase::leave: {
      if (!fingers_.empty()) return kNothing;
      const bool shown = hovered_ != Handle::none || probing_;
      hovered_ = Handle::none;
      probing_ = false;
      return shown ? kPicture : kNothing;
    }
  }
  return kNothing;
}

unsigned Session::layer(std::string_view name, bool on) {
  bool* const layer = core::layer_by_name(layers_, name);
  if (!layer || *layer == on) return kNothing;
  *layer = on;
  if (!own_view_) refit();
  // The report has the area, and its summary the miss, only while they are shown.
  const bool said = layer == &layers_.area || layer == &layers_.miss;
  return said ? kScenario | kPicture : kPicture;
}

unsigned Session::beside(std::string_view link, std::string_view label) {
  if (link.empty()) {
    if (!beside_) return kNothing;
    beside_.reset();
  } else {
    beside_.emplace(
        core::Beside{core::work_out(core::parse_link(link).scenario), std::string(label)});
  }
  if (!own_view_) refit();
  return kPicture;
}

unsigned Session::show_flight(bool on) {
  if (flight_ == on) return kNothing;
  flight_ = on;
  growing_ = false;
  return kScenario | kPicture;
}

unsigned Session::grow_flight() {
  growing_ = true;
  clock_moved();
  return kPicture;
}

void Session::clock_moved() {
  const auto outcome_s = [](const core::Flight& f) {
    return f.rollout.exists ? f.rollout.at_s : f.track.end_s();
  };
  double told_s = outcome_s(worked_.flown);
  if (beside_) told_s = std::max(told_s, outcome_s(beside_->worked.flown));
  if (clock_.t_s() >= std::min(told_s, clock_.end_s())) growing_ = false;
}

unsigned Session::show_handles(bool on) {
  if (handles_ == on) return kNothing;
  handles_ = on;
  return kPicture;
}

unsigned Session::play() {
  if (hand_) {
    hand_->play();
    return kClock | kPicture;
  }
  // Posed for a first look, the flight begins at its beginning.
  if (posed_) clock_.seek(clock_.start_s());
  posed_ = false;
  clock_.play();
  return kClock | kPicture;
}

unsigned Session::pause() {
  if (hand_) {
    hand_->pause();
    return kClock;
  }
  if (!clock_.playing()) return kNothing;
  clock_.pause();
  return kClock;
}

unsigned Session::seek(double t_s) {
  if (hand_) return hand_->seek(t_s) ? kClock | kPicture : kNothing;
  posed_ = false;
  clock_.seek(t_s);
  clock_moved();
  return kClock | kPicture;
}

unsigned Session::step(int direction) {
  if (hand_) return kNothing;
  const core::Flight& f = worked_.flown;
  clock_.pause();
  constexpr double kSame = 1e-6;
  double to = direction > 0 ? clock_.end_s() : clock_.start_s();
  for (int k = 0; k < f.event_count; ++k) {
    const int i = direction > 0 ? k : f.event_count - 1 - k;
    const double at = f.events[static_cast<unsigned>(i)].at_s;
    if (direction > 0 ? at > clock_.t_s() + kSame : at < clock_.t_s() - kSame) {
      to = at;
      break;
    }
  }
  return seek(to);
}

unsigned Session::speed(double multiplier) {
  if (hand_) {
    hand_->speed(multiplier);
    return kClock;
  }
  clock_.set_speed(multiplier);
  return kClock;
}

unsigned Session::tick(double dt_s) {
  if (hand_) {
    if (!hand_->clock().playing()) return kNothing;
    hand_->advance(dt_s);
    if (!own_view_) view_ = core::widened_to(view_, hand_->pose().at);
    return kClock | kPicture;
  }
  if (!clock_.playing()) return kNothing;
  clock_.advance(dt_s);
  clock_moved();
  return kClock | kPicture;
}

Live Session::live() const {
  if (hand_) return live_by_hand();
  const core::Flight& f = worked_.flown;
  const double t = clock_.t_s();
  int phase = -1;
  while (phase + 1 < f.event_count && f.events[static_cast<unsigned>(phase + 1)].at_s <= t + 1e-9) {
    ++phase;
  }
  return readings(clock_, worked_.setup, f.track.position_at(t), f.track.velocity_kt_at(t),
                  f.track.heading_at(t), phase);
}

Live Session::readings(const Playback& clock, const core::Setup& u, Vec2 at, Vec2 velocity_kt,
                       double heading_deg, int phase) {
  const double groundspeed = core::length(velocity_kt);
  const double track = groundspeed > 0.0 ? core::direction_of(velocity_kt) : heading_deg;
  return {clock.t_s(),
          clock.start_s(),
          clock.end_s(),
          clock.playing() ? 1.0 : 0.0,
          clock.speed(),
          heading_deg,
          track,
          groundspeed,
          core::wrap_180(track - heading_deg),
          u.hold.cross_nm(at),
          u.hold.to_go_nm(at),
          at.x,
          at.y,
          static_cast<double>(phase)};
}

core::PictureOptions Session::options() const {
  core::PictureOptions o;
  o.view = view_;
  o.layers = layers_;
  o.time_s = clock_.t_s();
  // The air drifts with the flight's own clock: still when paused, and scrubbing
  // moves it too.
  o.air_s = clock_.t_s();
  o.active = dragged_ != Handle::none ? dragged_ : hovered_;
  if (probing_) o.probe_s = probe_s_;
  o.wind_corner = wind_corner_;
  o.tools = has_tools();
  o.handles = handles_;
  for (int i = 0; i < core::kHandles; ++i) {
    o.fixed[static_cast<unsigned>(i)] = !own_ && locks_.has(static_cast<Handle>(i));
  }
  o.flight = flight_;
  if (growing_) o.until_s = clock_.t_s();
  o.beside = beside_ ? &*beside_ : nullptr;
  if (hand_) {
    o.layers = {};
    o.time_s = hand_->t_s();
    o.air_s = hand_->t_s();
    o.active = Handle::none;
    o.probe_s.reset();
    o.until_s.reset();
    o.handles = false;
  }
  return o;
}

const core::Diagram& Session::diagram() {
  core::PictureOptions o = options();
  if (hand_) {
    const core::HandPicture hand = hand_->picture();
    o.hand = &hand;
    core::draw_picture(hand_->worked(), o, diagram_);
    return diagram_;
  }
  o.area = area();
  core::draw_picture(worked_, o, diagram_);
  return diagram_;
}

std::string Session::picture_words() {
  if (hand_) return {};
  core::PictureOptions o = options();
  o.area = area();
  return core::picture_words(worked_, o);
}

std::string Session::svg(core::Theme theme) {
  const std::string summary =
      hand_ ? core::hand_summary(hand_->picture()) : core::picture_summary(worked_, layers_.miss);
  return core::write_svg(diagram(), theme, summary);
}

}  // namespace web
