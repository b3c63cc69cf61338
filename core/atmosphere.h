// core/atmosphere.h - standard atmosphere and airspeed conversion.
//
// Altitude is pressure altitude in feet; `isa_deviation_c` is added to the
// standard temperature at every level. IAS is taken as CAS (no instrument or
// position error), and the page says so.
#pragma once

namespace core {

/// Standard temperature plus deviation, kelvin. Lapse 6.5 K/km to 11 km, then
/// isothermal. Source: ICAO Doc 7488 model, constants in docs/theory.md.
[[nodiscard]] double temperature_k(double altitude_ft, double isa_deviation_c = 0.0);

/// Static pressure over its sea-level standard value (1013.25 hPa).
[[nodiscard]] double pressure_ratio(double altitude_ft);

/// Air density over its sea-level standard value.
[[nodiscard]] double density_ratio(double altitude_ft, double isa_deviation_c = 0.0);

/// Speed of sound, knots.
[[nodiscard]] double speed_of_sound_kt(double altitude_ft, double isa_deviation_c = 0.0);

/// Mach number for a calibrated airspeed: compressible subsonic pitot relation.
/// Meaningful below 1; the caller rejects the rest.
[[nodiscard]] double mach_from_cas(double cas_kt, double altitude_ft);

/// True airspeed from calibrated airspeed, knots, by way of the Mach number.
[[nodiscard]] double tas_from_cas(double cas_kt, double altitude_ft, double isa_deviation_c = 0.0);

/// Inverse of tas_from_cas, knots.
[[nodiscard]] double cas_from_tas(double tas_kt, double altitude_ft, double isa_deviation_c = 0.0);

}  // namespace core
