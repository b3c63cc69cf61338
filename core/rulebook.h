// core/rulebook.h - by whose book the hold is flown.
#pragma once

namespace core {

/// FAA: the Aeronautical Information Manual, 5-3-8; ICAO: Doc 8168 Vol I Part I Section 6.
/// They differ in the offset entry (a heading against a track), the bank limit and the
/// greatest holding speeds; docs/theory.md "Two books".
enum class Rulebook { faa, icao };

}  // namespace core
