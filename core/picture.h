// core/picture.h - draws a worked case as a diagram.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "core/apart.h"
#include "core/debrief.h"
#include "core/diagram.h"
#include "core/protected_area.h"
#include "core/worked_case.h"

namespace core {

/// What a person can take hold of in the picture.
enum class Handle { none, wind, inbound, arrival, turns };
inline constexpr int kHandles = 5;

/// Parts of the picture that can be switched off.
struct Layers {
  bool no_correction = true;
  bool rule = true;
  bool exact = true;
  bool own = true;
  bool air_path = true;
  bool pattern = true;
  bool marks = true;
  bool streaks = true;
  bool miss = true;          ///< where it rolls out, against where it should
  bool sectors = false;      ///< the entry sectors and the arrival heading in them
  bool other_entry = false;  ///< the other entry, where two are acceptable
  bool area = false;         ///< the indicative protected area, with its caption
  bool limits = false;       ///< where to slow down; station, radial, end of a distance leg
  friend bool operator==(const Layers&, const Layers&) = default;
};
inline constexpr int kLayers = 13;
/// A layer's link-like name: "no_correction", "rule", ... in the order of Layers; empty
/// outside [0, kLayers).
[[nodiscard]] std::string_view layer_name(int index);
/// The switch for a layer by its name, or null.
[[nodiscard]] bool* layer_by_name(Layers& layers, std::string_view name);

/// A second scenario, whose flight is drawn beside the first: an answer beside the right one.
struct Beside {
  WorkedCase worked;
  std::string label;  ///< whose it is; stands at the end of the track
};

/// A flight by hand, in place of the plans: what was flown so far, and afterwards the exact
/// plan beside it.
struct HandPicture {
  const HandFlown* flown = nullptr;
  double until_s = 0.0;           ///< drawn up to here
  bool wind_shown = true;         ///< else neither the wind nor what would tell it
  const Debrief* told = nullptr;  ///< afterwards
  const Flight* exact = nullptr;  ///< afterwards, where there is one
};

struct PictureOptions {
  Viewport view;
  Layers layers;
  std::optional<double> time_s;         ///< where the aircraft is; absent: not drawn
  double air_s = 0.0;                   ///< how long the air has drifted, for the streaks
  Handle active = Handle::none;         ///< dragged or pointed at
  std::optional<double> probe_s;        ///< time on the flown track that is pointed at
  int wind_corner = 2;                  ///< 0 top left, 1 top right, 2 bottom right, 3 bottom left
  bool handles = true;                  ///< off for print and export
  std::array<bool, kHandles> fixed{};   ///< by Handle: shown without its grip, for it is fixed
  bool tools = false;                   ///< the page's own buttons lie over the top right corner
  bool flight = true;                   ///< off: nothing beyond the fix, for it is asked for
  std::optional<double> until_s;        ///< flights end here, untold; absent: whole and told
  const Beside* beside = nullptr;       ///< null: none
  const ProtectedArea* area = nullptr;  ///< of the setup, for its layer; null: worked out anew
  const HandPicture* hand = nullptr;    ///< flown by hand: neither plans nor handles

  [[nodiscard]] bool is_fixed(Handle handle) const { return fixed[static_cast<unsigned>(handle)]; }
};

/// Replaces `out` with the picture of `worked`.
void draw_picture(const WorkedCase& worked, const PictureOptions& options, Diagram& out);

/// What the picture has besides the scene and its flight, in sentences: layers, laps, a second
/// flight. Empty where it has nothing more. Follows picture_summary() (core/explain.h).
[[nodiscard]] std::string picture_words(const WorkedCase& worked, const PictureOptions& options);

/// Middle of the handle, NM; absent for Handle::none or where it has no place.
[[nodiscard]] std::optional<Vec2> handle_at(const WorkedCase& worked, const PictureOptions& options,
                                            Handle handle);

/// The wind that a pointer at `px` on the wind's dial means, in whole degrees and
/// knots; a wind of less than one knot keeps `from_deg`.
[[nodiscard]] Wind dialled_wind(const PictureOptions& options, Vec2 px, double from_deg);

/// The viewport that shows the whole case, and what its layers add, in `width_px` by
/// `height_px`. `area` as in PictureOptions.
[[nodiscard]] Viewport fitted(const WorkedCase& worked, double width_px, double height_px,
                              const Layers& layers = {}, const ProtectedArea* area = nullptr,
                              const Beside* beside = nullptr);
/// The corner of the picture that is emptiest, for the wind's dial. With `tools` the
/// top right one is taken.
[[nodiscard]] int emptiest_corner(const WorkedCase& worked, const Viewport& view, bool tools,
                                  const Layers& layers = {});

/// The viewport for a flight by hand: the arrival, the pattern, and room about it for entry and
/// laps, whatever the wind.
[[nodiscard]] Viewport fitted_for_hand(const Setup& setup, double width_px, double height_px);
/// `view`, or where `at` is near its edge or outside, one that shows all of it and has room
/// beyond `at`.
[[nodiscard]] Viewport widened_to(const Viewport& view, Vec2 at);
/// Text alternative of the picture of a flight by hand.
CORE_APART [[nodiscard]] std::string hand_summary(const HandPicture& hand);

/// Time on the flown track nearest to `px`, if within `reach_px`.
[[nodiscard]] std::optional<double> nearest_time(const WorkedCase& worked, const Viewport& view,
                                                 Vec2 px, double reach_px);

}  // namespace core
