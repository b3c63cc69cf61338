// web/playback.h - the clock of the animation.
#pragma once

namespace web {

/// Runs from `start_s` to `end_s` and stops there. Time passes only by advance(), in
/// steps of at most a tenth of a second of real time, so that a hidden tab or a slow
/// machine never makes it jump.
class Playback {
 public:
  static constexpr double kMostStepS = 0.1;
  static constexpr double kSlowest = 1.0;
  static constexpr double kFastest = 30.0;

  void range(double start_s, double end_s);
  void seek(double t_s);
  void play();
  void pause() { playing_ = false; }
  void set_speed(double multiplier);
  /// Returns simulated seconds passed.
  double advance(double dt_s);

  [[nodiscard]] double t_s() const { return t_s_; }
  [[nodiscard]] double start_s() const { return start_s_; }
  [[nodiscard]] double end_s() const { return end_s_; }
  [[nodiscard]] bool playing() const { return playing_; }
  [[nodiscard]] double speed() const { return speed_; }

 private:
  double start_s_ = 0.0;
  double end_s_ = 0.0;
  double t_s_ = 0.0;
  double speed_ = 8.0;
  bool playing_ = false;
};

}  // namespace web
