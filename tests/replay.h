// tests/replay.h - a planned flight flown by hand: the pilot's turns as commands.
#pragma once

#include "core/flight.h"
#include "core/hand_flown.h"

namespace test {

/// Gives `hand` the commands that fly `flight`'s track; returns until when the two are the same:
/// a rolled turn that is cut at the fix is left by the planned pilot with wings level at once,
/// which no hand can do.
inline double replay(const core::Flight& flight, core::HandFlown& hand) {
  const core::Track& track = flight.track;
  for (int i = 0; i < track.size(); ++i) {
    const core::Segment& s = track[i];
    if (s.straight() || s.duration_s < 1e-9 || s.start_s >= core::kMostHandFlownS) continue;
    const double to = i + 1 < track.size() ? track[i + 1].heading_deg : s.heading_at(s.duration_s);
    hand.bug(s.start_s, to, s.rate_deg_s > 0.0 ? core::Way::right : core::Way::left);
    if (s.roll.each_s > 0.0 && s.duration_s < s.roll.whole_s - 1e-9) return s.start_s;
  }
  return track.end_s() < core::kMostHandFlownS ? track.end_s() : core::kMostHandFlownS;
}

}  // namespace test
