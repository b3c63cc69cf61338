// web/session.h - what the page and the picture share: one scenario, its history, the
// clock, the view and the hands on it. Plain C++, tested natively; the page calls it
// through web/core_exports.cpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/picture.h"
#include "core/scenario.h"
#include "core/worked_case.h"
#include "web/hand_session.h"
#include "web/locks.h"
#include "web/playback.h"

namespace web {

/// What a call changed, as bits.
enum Change : unsigned { kNothing = 0, kScenario = 1, kPicture = 2, kClock = 4 };

/// Phases of a pointer, as the page reports them.
enum class Phase { down, move, up, cancel, leave };

/// Instrument readings at the clock's time.
struct Live {
  double t_s;
  double start_s;
  double end_s;
  double playing;  ///< 1 or 0
  double speed;
  double heading_deg;
  double track_deg;
  double groundspeed_kt;
  double drift_deg;  ///< + = drifts right
  double cross_nm;   ///< + = holding side
  double to_go_nm;
  double x_nm;
  double y_nm;
  double phase;  ///< index of the last event passed, -1 before the first
};

// In the order of their subjects, not of size.
class Session {  // NOLINT(clang-analyzer-optin.performance.Padding)
 public:
  Session();

  /// Takes a link's scenario; a fresh history. Returns what changed.
  unsigned open(std::string_view link);
  /// Shows a scene that is not the person's; theirs waits, with its history and problems.
  unsigned visit(std::string_view link);
  /// The person's scene again, as visit() found it; nothing without a visit. open() ends one too.
  unsigned back();
  /// Fixes link keys of the person's scene (a space between) at the values that `link` gives them:
  /// no field, handle, plan, undo, reset or open() changes them then. No keys: all are free.
  unsigned lock(std::string_view keys, std::string_view link);
  /// Sets one key. With `midway` the change joins the last one of the same key in the
  /// history (typing, dragging). A bad value changes nothing but the problems.
  unsigned set(std::string_view key, std::string_view text, bool midway);
  unsigned choose(std::string_view plan);
  unsigned undo();
  unsigned redo();
  /// Back to the page's opening scene; can be undone.
  unsigned reset();
  [[nodiscard]] bool can_undo() const { return now_ > 0; }
  [[nodiscard]] bool can_redo() const { return now_ + 1 < history_.size(); }

  [[nodiscard]] std::string link() const;
  /// The evaluate() answer for the present scenario, with the standing problems.
  /// `more`: with the parts that the first view lacks (core::ReportParts).
  [[nodiscard]] std::string report(bool more = true) const;
  /// What the navigation displays show now, as JSON.
  [[nodiscard]] std::string needle() const;
  [[nodiscard]] const core::WorkedCase& worked() const { return worked_; }
  [[nodiscard]] const core::Scenario& scenario() const { return worked_.setup.scenario; }

  /// CSS pixels of the picture; refits unless the person moved the view.
  unsigned resize(double width_px, double height_px);
  unsigned fit();
  unsigned zoom(double x_px, double y_px, double factor);
  unsigned pointer(Phase phase, int id, double x_px, double y_px, bool coarse);
  [[nodiscard]] core::Handle hit(double x_px, double y_px, bool coarse) const;
  /// Middle of a handle, CSS px; absent where it has no place.
  [[nodiscard]] std::optional<core::Vec2> handle_px(core::Handle handle) const;
  unsigned layer(std::string_view name, bool on);
  /// Draws a second scenario's flight beside the first, with `label` at its end. An empty
  /// link takes it away.
  unsigned beside(std::string_view link, std::string_view label);
  /// Whether what happens beyond the fix is drawn: off while it is asked for.
  unsigned show_flight(bool on);
  /// From now on the flights are drawn as far as the clock, and told at their end; until then,
  /// or until another scene comes.
  unsigned grow_flight();
  /// Whether the picture can be taken hold of: off where the scene is set.
  unsigned show_handles(bool on);
  [[nodiscard]] core::Layers layers() const { return layers_; }

  unsigned play();
  unsigned pause();
  unsigned seek(double t_s);
  unsigned step(int direction);
  unsigned speed(double multiplier);
  /// Advances the clock by real seconds while playing; a long gap counts little.
  unsigned tick(double dt_s);
  [[nodiscard]] Live live() const;

  /// Flying by hand, from the present scene; also anew while it flies. The clock, the live
  /// readings, the needles and the picture are then those of that flight, the clock stands
  /// until play(), and runs at most at HandSession::kFastest. Nothing where the arrival cannot
  /// be made good. Another scene ends it.
  unsigned fly_start(const HandOptions& options);
  /// Commands at the clock's time; nothing without a flight. `way` -1 left, 0 the shorter, 1
  /// right; `side` < 0 left.
  unsigned fly_bug(double heading_deg, int way);
  unsigned fly_turn(int side);
  unsigned fly_level();
  unsigned fly_clock();
  /// Ends the flight: fly_debrief() has the debrief, the picture the exact plan.
  unsigned fly_end();
  /// Back to the scene, its clock and its view as they were.
  unsigned fly_leave();
  /// As JSON: phase "off", "flying" or "debrief", and what the cockpit shows.
  [[nodiscard]] std::string fly_state() const;
  [[nodiscard]] std::string fly_debrief() const;
  /// The scene flown by hand, with the student's own heading and time after the debrief.
  [[nodiscard]] std::string fly_link() const;

  /// The picture as it stands.
  [[nodiscard]] const core::Diagram& diagram();
  /// What the picture has besides the scene and its flight; core::picture_words.
  [[nodiscard]] std::string picture_words();
  [[nodiscard]] std::string svg(core::Theme theme = core::Theme::light);

 private:
  /// A scenario with the steps that led to it.
  struct Scene {
    std::vector<core::Scenario> history;
    std::size_t now;
    std::vector<core::Problem> problems;
  };
  [[nodiscard]] static Scene link_scene(std::string_view link);
  /// The clock was moved: what grew to its end is whole.
  void clock_moved();
  unsigned show(Scene scene);
  unsigned adopt(const core::Scenario& wanted, std::string_view key, bool midway);
  void work_out(const core::Scenario& scenario);
  void refit();
  /// The person moves it.
  void move_view(core::Vec2 by_nm);
  [[nodiscard]] core::Scenario held(const core::Scenario& wanted) const;
  [[nodiscard]] bool has_tools() const;
  [[nodiscard]] const core::ProtectedArea* area();
  void pose();
  void drop_problem(std::string_view key);
  unsigned drag_to(core::Vec2 px);
  [[nodiscard]] core::PictureOptions options() const;
  void drop_hand();
  unsigned commanded(bool taken) const;
  [[nodiscard]] Live live_by_hand() const;
  [[nodiscard]] static Live readings(const Playback& clock, const core::Setup& setup, core::Vec2 at,
                                     core::Vec2 velocity_kt, double heading_deg, int phase);

  struct Finger {
    int id;
    core::Vec2 at;
    core::Vec2 down;
  };

  core::WorkedCase worked_;
  std::vector<core::Problem> problems_;
  Locks locks_;
  std::vector<core::Scenario> history_;
  std::size_t now_ = 0;
  std::optional<Scene> own_;  ///< the person's, while another is visited
  std::string last_key_;      ///< of the change that a `midway` change may join; else empty

  core::Viewport view_;
  core::Layers layers_;
  std::optional<core::ProtectedArea> area_;  ///< of the scenario, once its layer wants it
  std::optional<core::Beside> beside_;
  bool flight_ = true;
  bool growing_ = false;
  bool handles_ = true;
  int wind_corner_ = 2;
  bool own_view_ = false;  ///< the person has panned or zoomed
  Playback clock_;
  bool posed_ = true;  ///< the aircraft stands mid-leg for a first look

  std::vector<Finger> fingers_;
  core::Handle dragged_ = core::Handle::none;
  core::Handle hovered_ = core::Handle::none;
  core::Vec2 grip_px_{0.0, 0.0};  ///< from the pointer to the middle of the handle
  double probe_s_ = 0.0;
  bool probing_ = false;

  /// A flight by hand, and the view to come back to.
  std::optional<HandSession> hand_;
  core::Viewport scene_view_;
  bool scene_own_view_ = false;

  core::Diagram diagram_;
};

}  // namespace web
