// web/hand_session.h - a flight by hand in the session: its clock, its scene, its debrief.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/picture.h"
#include "web/playback.h"

namespace web {

/// How a flight by hand begins.
struct HandOptions {
  bool wind_shown = true;                  ///< else the wind is told by the debrief alone
  std::optional<std::uint32_t> wind_seed;  ///< a wind drawn by it in place of the scene's
};

class HandSession {
 public:
  static constexpr double kFastest = 8.0;

  HandSession(const core::Scenario& scene, const HandOptions& options);

  [[nodiscard]] bool exists() const { return flown_.exists(); }
  [[nodiscard]] bool flying() const { return !told_; }
  [[nodiscard]] double t_s() const { return clock_.t_s(); }
  [[nodiscard]] const Playback& clock() const { return clock_; }
  [[nodiscard]] const core::WorkedCase& worked() const { return worked_; }
  [[nodiscard]] core::HandFlown::Pose pose() const { return flown_.pose(clock_.t_s()); }

  /// At the clock's time. They do nothing in the debrief.
  bool bug(double heading_deg, core::Way way);
  bool turn(core::Side side);
  bool level();
  bool start_stopwatch();
  /// Ends the flight here: from now on there is a debrief.
  void end();

  void play() { clock_.play(); }
  void pause() { clock_.pause(); }
  void speed(double multiplier);
  /// In the debrief alone: what is flown cannot be flown again.
  bool seek(double t_s);
  void advance(double dt_s) { clock_.advance(dt_s); }

  /// What the picture draws; points into this object.
  [[nodiscard]] core::HandPicture picture() const;
  [[nodiscard]] std::string state() const;
  [[nodiscard]] std::string debrief() const;
  /// The scene with the student's own heading and time, once there is a debrief.
  [[nodiscard]] std::string link() const;

 private:
  HandOptions options_;
  core::WorkedCase worked_;
  core::HandFlown flown_;
  Playback clock_;
  std::optional<core::Debrief> told_;
  std::optional<core::Flight> exact_;
};

}  // namespace web
