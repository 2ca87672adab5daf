#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Whom a caution concerns first; outputs group by it. In the order of urgency.
enum class CautionGroup { people, eyes, launcher, panel, ice, afterwards };

/// "People", "Eyes", ...
std::string_view text(CautionGroup group);

/// One caution. The words of hail and of every test stand in src/safety/cautions.cpp alone, those
/// of another stress in its file of src/model/stresses/ alone.
struct Caution {
  std::string_view id;
  CautionGroup group;
  std::string_view hazard;   ///< a few words
  std::string_view text;     ///< what to do; true as it stands also when the trigger is not known
  std::string_view trigger;  ///< when it is shown, in words: "energy of 9 J or more, or not known"
  std::string_view source = "no published source";  ///< document
  std::string_view read_at = {};                    ///< where it was read; empty when it was not
  ReadStatus status;                  ///< the weakest of what its figure and its demand rest on
  std::string_view status_note = {};  ///< what was read and what was not; may be empty
};

/// All cautions, the most urgent first, group after group.
std::span<const Caution> all_cautions();

/// The shortest caution, for the foot of every printed sheet. Common practice, no source.
std::string_view shortest_caution();

/// The caution with this id. Contract: there is one.
const Caution& caution(std::string_view id);

/// The figures that decide, each once and beside its source. A figure read in other units, or
/// computed, is rounded down, so that a caution never comes too late.
struct CautionLimits {
  /// Rigid toy projectile, older EN 71-1 [read, secondary].
  static constexpr Energy toy = Energy::from_si(0.08);
  /// Ball of 0.145 kg at 25 mph, the lowest speed that upset a heart: 9.06 J [Link et al. 2003:
  /// speeds read, energy computed, its use as a limit for ice ours].
  static constexpr Energy heart_blow = Energy::from_si(9.0);
  /// 11 ft-lbf = 14.914 J, 14 CFR 107.120 [read as quoted].
  static constexpr Energy serious = Energy::from_si(14.9);
  /// 25 ft-lbf = 33.895 J, 14 CFR 107.130 [read].
  static constexpr Energy severe = Energy::from_si(33.89);
  /// 58 ft-lbf = 78.637 J, summary of DDESB TP-12 [read]. From here a home test is refused.
  static constexpr Energy lethal = Energy::from_si(78.63);
  /// EN 166 F, 0.86 g at 45 m/s: 0.8708 J [test read, energy computed].
  static constexpr Energy eyewear_low = Energy::from_si(0.87);
  /// EN 166 B, 0.86 g at 120 m/s: 6.192 J [test read, energy computed].
  static constexpr Energy eyewear_mid = Energy::from_si(6.19);
  /// EN 166 A, 0.86 g at 190 m/s: 15.523 J [test read, energy computed].
  static constexpr Energy eyewear_high = Energy::from_si(15.5);
  /// Half the eyes with lens injury at 19 194 J/m2 [curve of Duma 2005, from memory].
  static constexpr EnergyPerArea eye_globe = EnergyPerArea::from_si(19000.0);
  /// Wet or damaged panel [makers' manuals, read].
  static constexpr Voltage dc_wet = Voltage::from_si(30.0);
  /// IEC 61730-1:2016, class III [from memory].
  static constexpr Voltage dc_class3 = Voltage::from_si(35.0);
  /// IEC 60598-1 [read as quoted]; IEC 61201 says 70 V [read as quoted].
  static constexpr Voltage dc_dry = Voltage::from_si(60.0);
  /// Extra-low voltage ends *above* this: IEV, IEC 61140 7.4 [read].
  static constexpr Voltage dc_elv = Voltage::from_si(120.0);
  /// Warm enough to burn skin that rests on it [ISO 13732-1 from memory; limit ours].
  static constexpr TemperaturePoint hot_surface = TemperaturePoint::from_celsius(50.0);
  /// A panel *above* this is not at room temperature [ours].
  static constexpr TemperaturePoint thermal_shock = TemperaturePoint::from_celsius(35.0);
  /// Balls *below* this did not come from a household freezer [ours].
  static constexpr TemperaturePoint household_freezer = TemperaturePoint::from_celsius(-30.0);
};

/// What is known of a test; each caution is triggered by some of it. Unknown stays absent, and a
/// caution whose trigger cannot be ruled out when its situation applies is shown. One exception:
/// an unknown open-circuit voltage shows `dc_wet` alone of the four steps of voltage, and the text
/// says to take the voltage as higher.
struct CautionFacts {
  bool launches = false;         ///< a ball is launched, thrown or dropped
  std::optional<Energy> energy;  ///< upper value of the hardest shot, at the muzzle where known
  std::optional<EnergyPerArea> energy_per_area;  ///< of its cross-section, upper value
  std::optional<Launcher> launcher;
  bool panel_present = false;                ///< a panel is struck and read
  std::optional<Voltage> open_voltage_cold;  ///< of all panels in series, at the coldest
  std::optional<TemperaturePoint> hottest_panel;
  std::optional<TemperaturePoint> panel_at_shots;
  std::optional<TemperaturePoint> ball;   ///< as it leaves the freezer
  bool ice = true;                        ///< false only where every ball is of another stuff
  std::optional<bool> dry_ice;            ///< absent: told from the temperature of the ball
  std::optional<bool> installed;          ///< the panel is part of an array, a roof or a vehicle
  std::optional<bool> high_voltage_test;  ///< an insulation test is planned
  bool broken = false;                    ///< glass, sheet or laminate broken
  bool shaded = false;                    ///< a part of the panel is shaded on purpose
  bool power_station = false;             ///< the load is a power station or charge controller
  bool published = false;                 ///< the output goes to readers
  /// Words of the kinds of stress other than hail that are planned or were done.
  std::vector<std::string_view> stresses{};
};

/// The cautions that these facts trigger, most urgent first. Never empty for a launch.
std::vector<const Caution*> cautions_for(const CautionFacts& facts);

/// The source of each caution, in the same order; the id is that of the caution.
std::span<const Citation> caution_sources();

/// What is taken where nobody stated it.
struct ColdVoltageDefaults {
  /// Relative change of open-circuit voltage per kelvin of silicon [from memory].
  static constexpr TemperatureCoefficient coefficient = TemperatureCoefficient::from_si(-0.003);
  /// Coldest panel in the sun that a small-panel user is likely to meet [ours].
  static constexpr TemperaturePoint coldest = TemperaturePoint::from_celsius(-10.0);
};

/// Open-circuit voltage of a cold panel: V(T) = V (1 + beta (T - 25 degC)).
/// @param at_stc  open-circuit voltage at 25 degC and 1000 W/m2; of panels in series, their sum
/// @param beta    its relative change per kelvin, below zero for every panel on sale
/// Source: practice of the trade; 22.0 V at -10 degC with the defaults gives 24.3 V [computed].
Voltage cold_open_voltage(Voltage at_stc,
                          TemperatureCoefficient beta = ColdVoltageDefaults::coefficient,
                          TemperaturePoint coldest = ColdVoltageDefaults::coldest);

/// The same of a panel file, as an upper value: with the lower end of the coefficient as it is
/// stated, and never less of a rise than the default gives. Nothing where the file does not state
/// the voltage.
std::optional<Voltage> coldest_open_voltage(const Panel& panel);

/// Whether the words for a load name a power station or a charge controller.
bool names_power_station(std::string_view load);

}  // namespace hailwright
