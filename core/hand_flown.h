// core/hand_flown.h - a flight flown by hand: heading bug, turns, wings level, stopwatch.
//
// The clock is zero over the fix, as the arrival course leads there; the flight begins a
// minute before. Commands come in order of time, each cuts what was to follow it; what
// follows a command is closed form to the end (core/track.h), so a flight needs no time step.
// Turns are the setup's: its bank, rolled into at its rate of roll, in its wind.
#pragma once

#include <optional>
#include <vector>

#include "core/motion.h"
#include "core/track.h"

namespace core {

/// Seconds of arrival before the fix.
inline constexpr double kHandArrivalS = 60.0;
/// Longest flight, seconds after the fix: an entry and a dozen laps.
inline constexpr double kMostHandFlownS = 3600.0;

/// Which way to turn to a heading. `shorter`: exactly opposite, the way of the hold's turns; in
/// a turn, on in its direction, unless that would be more than three quarters of a circle.
enum class Way { shorter, left, right };

class HandFlown {
 public:
  /// Most commands; later ones are refused, and the flight goes on as it was told last.
  static constexpr int kMostCommands = 512;

  /// Wings level on the arrival course, with its drift correction. Where that course cannot be
  /// made good there is no flight: exists() is false and commands do nothing.
  explicit HandFlown(const Setup& setup);

  [[nodiscard]] bool exists() const { return !pieces_.empty(); }
  [[nodiscard]] const Setup& setup() const { return setup_; }
  [[nodiscard]] double start_s() const { return -kHandArrivalS; }
  [[nodiscard]] double end_s() const { return kMostHandFlownS; }

  /// Commands. `t_s` earlier than the last command, or outside the flight, is taken to the
  /// nearest time that is allowed. False, and nothing done, where a number is not finite or
  /// the commands are used up. Several of one kind at one time are one command.
  ///
  /// Turn to a heading and fly it. Where the bank does not allow to stop on it, the turn goes
  /// past, rolls out and comes back.
  bool bug(double t_s, double heading_deg, Way way = Way::shorter);
  /// Turn until told otherwise.
  bool turn(double t_s, Side side);
  /// Wings level: at once, or as fast as the rate of roll allows.
  bool level(double t_s);
  /// Starts the student's stopwatch, or starts it again.
  bool clock(double t_s);

  /// Where the flight is at a time, as far as it is told by then.
  struct Pose {
    Vec2 at;  ///< NM
    double heading_deg;
    Vec2 velocity_nm_s;  ///< over the ground
    double bank_rad;     ///< + right; 0 where turns begin at once
    double rate_deg_s;   ///< + right
  };
  [[nodiscard]] Pose pose(double t_s) const;
  /// Every piece, to the end of the flight.
  [[nodiscard]] Pieces track() const { return {pieces_.data(), static_cast<int>(pieces_.size())}; }
  /// Heading last asked for; absent after turn() and level().
  [[nodiscard]] std::optional<double> bug_deg() const { return bug_deg_; }
  /// When turns were, or will be, completed, wings level, in order of time.
  [[nodiscard]] const std::vector<double>& level_times_s() const { return levels_s_; }
  /// When the stopwatch was started, in order of time.
  [[nodiscard]] const std::vector<double>& clock_times_s() const { return clocks_s_; }
  /// Reading of the stopwatch; absent before it is started.
  [[nodiscard]] std::optional<double> stopwatch_s(double t_s) const;
  [[nodiscard]] int commands_left() const { return kMostCommands - commands_; }

 private:
  enum class Command { none, bug, turn, level, clock };
  [[nodiscard]] bool accept(Command command, double& t_s);
  /// Takes away what was to follow `t_s`, so that the next piece begins there.
  void cut(double t_s);
  /// Adds a piece that begins where the last one ends. Split at the fix's time where the wind
  /// begins to change there.
  void add(double duration_s, double rate_deg_s, Roll roll);
  void straight_on();
  void completed();
  [[nodiscard]] Side side_to(double heading_deg, Way way) const;
  void roll_out();
  void turn_by(Side side, double angle_deg, double to_deg);

  Setup setup_;
  std::vector<Segment> pieces_;
  std::vector<double> levels_s_;
  std::vector<double> clocks_s_;
  std::optional<double> bug_deg_;
  // Where the next piece begins.
  double t_s_ = -kHandArrivalS;
  Vec2 at_{0.0, 0.0};
  double heading_deg_ = 360.0;
  double bank_rad_ = 0.0;
  double told_s_ = -kHandArrivalS;  ///< time of the last command
  Command told_ = Command::none;
  int commands_ = 0;
};

/// Nearest to the fix, or the time when it is abeam: the aircraft stops coming closer.
struct Passage {
  double at_s;
  double distance_nm;  ///< from the fix
  double heading_deg;
};
/// Within this of the fix the aircraft passes it.
inline constexpr double kPassageNm = 1.0;
/// Every passage from the start until `until_s`, at most `most` of them.
[[nodiscard]] std::vector<Passage> passages(const HandFlown& flown, double until_s, int most = 64);

}  // namespace core
