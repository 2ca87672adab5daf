#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"

// What a record may hold beside the test itself. Nothing of it decides a verdict.

namespace hailwright {

/// One panel read without a shade and with it, the one right after the other.
struct ShadeRound {
  SourceSpan origin;
  Power free, shaded;  ///< maximum power; `shaded` may be zero
  Irradiance sun_free, sun_shaded;
  bool sun_typed_once = false;  ///< one value for both
  TemperaturePoint back_free, back_shaded;
  bool back_typed_once = false;
};

/// What a shade costs.
struct ShadeTrial {
  SourceSpan origin;
  std::string shade;   ///< "lower left cell covered whole", as typed
  std::string date;    ///< ISO 8601; empty: the record's day
  bool after = false;  ///< read after the shots, not before
  std::vector<ShadeRound> rounds;
  /// Open-circuit voltage without the shade, and with one or more whole substrings in full shade.
  std::optional<Voltage> open_free, open_shaded;
  std::optional<int> substrings_shaded;  ///< in full shade for `open_shaded`
  std::optional<Stated<Voltage>> voltmeter;
  std::optional<Voltage> voltmeter_step;
};

/// A panel beside, read by a meter of its own over the same time.
struct EnergyBeside {
  SourceSpan origin;
  std::string label;  ///< which panel, as typed
  Energy energy;
  Energy typed_step;                    ///< of its last digit as typed
  std::optional<Energy> energy_step;    ///< of the display; nothing: as the first meter's
  std::optional<Stated<Energy>> meter;  ///< nothing: as the first meter, another one of its kind
  std::optional<TemperaturePoint> back_start, back_end;
};

/// A longer time whose energy was read off a meter at its end.
struct MeterSession {
  SourceSpan origin;
  std::string name;    ///< "morning"
  std::string date;    ///< ISO 8601; empty: the record's day
  bool after = false;  ///< after the shots
  Time lasting;
  Time lasting_step;  ///< of its last digit as typed
  Energy energy;
  Energy typed_step;                    ///< of its last digit as typed
  std::optional<Energy> energy_step;    ///< of the display
  std::optional<Stated<Energy>> meter;  ///< nothing: not stated
  std::optional<Irradiance> sun_start, sun_end;
  std::optional<TemperaturePoint> back_start, back_end;
  std::optional<EnergyBeside> beside;
};

/// What an I-V sweep, or four plain readings, came to once.
struct CurveReading {
  SourceSpan origin;
  std::optional<Voltage> open_circuit, at_maximum;
  std::optional<Current> short_circuit, current_at_maximum;
  Irradiance sun;
  TemperaturePoint back;
};

/// Figures of the curve before the shots and after them.
struct CurveReadings {
  SourceSpan origin;
  std::optional<Stated<Voltage>> voltmeter;
  std::optional<Voltage> voltmeter_step;
  std::optional<Stated<Current>> ammeter;
  std::optional<Current> ammeter_step;
  std::vector<CurveReading> before, after;
};

}  // namespace hailwright
