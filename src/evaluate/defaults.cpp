#include "hailwright/evaluate/defaults.hpp"

#include <algorithm>
#include <array>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

using enum DefaultId;
constexpr ReadStatus ours = ReadStatus::ours;
constexpr ReadStatus practice = ReadStatus::common_practice;
constexpr ReadStatus read_somewhere = ReadStatus::read;

constexpr std::array rows{
    DefaultRow{risk, "risk of each wrong statement", "2.5 %, so intervals at 95 % for one look",
               "decide: {risk: ...}", "usual level; fixed before the test", practice, ""},
    DefaultRow{see_chance, "how often a loss should show", "90 times in 100",
               "decide: {see_chance: ...}", "usual power of a test", practice, ""},
    DefaultRow{tolerance, "tolerance of mass, diameter and speed", "5 %", "series: tolerance: ...",
               "that of IEC 61215, for grades that print none", ours, ""},
    DefaultRow{place_size, "size of a place", "a hit counts within 25 mm of its middle",
               "series: place_size: ...",
               "about three times the scatter of a careful home aim; laboratories allow 10 mm",
               ours, ""},
    DefaultRow{coefficient_unknown, "temperature coefficient of power",
               "-0.35 %/K, half-width 0.15", "panel file: temperature: {power: ...}",
               "spans the -0.20 to -0.50 %/K of published silicon modules", read_somewhere,
               "coefficient"},
    DefaultRow{coefficient_sheet, "temperature coefficient of power",
               "as on the data sheet, half-width 0.05 %/K",
               "panel file: temperature: {power: {value: ..., half_width: ...}}",
               "sources disagree by about that for one cell type", practice, "coefficient"},
    DefaultRow{cell_above_back, "cell above back at 1000 W/m2", "3 K, half-width 3 K",
               "measure: cell_above_back: ...",
               "0 to 3 K over the mountings of King et al. 2004, doubled", read_somewhere, "cell"},
    DefaultRow{meter_accuracy, "power meter", "5 % and 3 digits", "tools: meter: accuracy: ...",
               "cheap inline meters", ours, "meter/gain meter/digits"},
    DefaultRow{meter_between_stages, "power meter, between the stages",
               "0.05 of its gain error is drawn anew", "tools: meter: between_stages: ...",
               "short-term against long-term figures of meters", ours, "meter/between"},
    DefaultRow{sun_accuracy, "sun meter", "reads within 10 %", "tools: sun: accuracy: ...",
               "cheap end of field irradiance meters", practice, "sun/gain"},
    DefaultRow{sun_between_stages, "sun meter, between the stages",
               "0.1 of its gain error is drawn anew", "tools: sun: between_stages: ...",
               "spectral and angular response change with the hour", ours, "sun/between"},
    DefaultRow{thermometer_accuracy, "thermometer", "reads within 3 K",
               "tools: thermometer: accuracy: ...", "infrared on glass", ours,
               "thermometer/offset"},
    DefaultRow{thermometer_each_time, "thermometer, put on or aimed anew", "within 1 K each time",
               "tools: thermometer: each_time: ...", "touch and aim", ours, "thermometer/each"},
    DefaultRow{day_same_panel, "one day's sky for all set-ups of a stage", "1.0 % (standard)",
               "measure: day: ..., or three days per stage, or a control panel beside it",
               "spectrum, sun angle and dirt that a day's set-ups share", ours,
               "day/before day/after sky"},
    DefaultRow{day_control_panel, "one day's sky, struck against control", "0.2 % (standard)",
               "measure: day: ..., or three days per stage",
               "most of the sky cancels between neighbours", ours, "day"},
    DefaultRow{stage_same_panel, "drift of the panel between the stages", "0.5 % (standard)",
               "measure: stage: ..., or a control panel beside it",
               "dirt, light exposure and contact change with time", ours, "stage"},
    DefaultRow{control_stability, "drift of the control against the struck panel",
               "0.5 % (standard)", "measure: control_stability: ...",
               "two panels side by side still age and soil apart", ours, "stage"},
    DefaultRow{scales_accuracy, "scales", "1 % and 1 digit", "tools: scales: accuracy: ...",
               "kitchen scales", ours, ""},
    DefaultRow{unit_mass, "single balls against those weighed together", "2 % (standard)",
               "weigh single balls, at least five of a kind", "no published figure found", ours,
               ""},
    DefaultRow{calipers_accuracy, "calipers", "within 0.3 mm", "tools: calipers: accuracy: ...",
               "cold plastic calipers on ice", ours, ""},
    DefaultRow{density, "density of a ball not weighed", "0.90 g/cm3, half-width 0.03",
               "balls: together g, or mass g", "0.87 to 0.93 g/cm3 is ice with more or less air",
               ours, ""},
    DefaultRow{seconds_out, "time out of the freezer", "up to 120 s when not noted", "shots: out s",
               "twice the 60 s that laboratories allow", ours, ""},
    DefaultRow{air_temperature, "air temperature for melting", "30 degC", "day: {air: ...}",
               "a hot day; melting is taken between none and the most", ours, ""},
    DefaultRow{video_length, "length on the video", "known within 5 mm",
               "speed: length_accuracy: ...", "two marks set with a tape", ours, ""},
    DefaultRow{parallax, "parallax of the video scale", "within 1 %", "speed: parallax: ...",
               "scale held in the plane of flight", ours, ""},
    DefaultRow{frame_rate, "frame rate of the video", "within 0.1 %", "speed: rate_accuracy: ...",
               "phone clocks; film a stopwatch to check it", ours, ""},
    DefaultRow{speed_accuracy, "speed meter", "reads within 10 %", "speed: accuracy: ...",
               "a meter of unknown make", ours, ""},
    DefaultRow{position_reading, "place of the ball in a picture", "within 5 mm",
               "speed: positions: {accuracy: ...}", "a blurred ball against a tape", ours, ""},
    DefaultRow{picture_scale, "scale of the picture", "within 1 %",
               "speed: positions: {scale_accuracy: ...}", "10 mm on a metre of tape in the picture",
               ours, ""},
    DefaultRow{shutter_readout, "read-out time of the camera", "within 20 % of itself",
               "speed: shutter: {readout_accuracy: ...}", "makers rarely state it", ours, ""},
    DefaultRow{gate_spacing, "distance between the gates", "within 3 mm",
               "speed: gates: {spacing_accuracy: ...}", "where a beam breaks is not where it shows",
               ours, ""},
    DefaultRow{
        gate_time, "time between the gates", "within 0.2 ms", "speed: gates: {time_accuracy: ...}",
        "two gates answer differently; the last digit of a clock is not its accuracy", ours, ""},
    DefaultRow{radar_angle, "angle between the radar and the flight", "5 deg, half-width 5 deg",
               "speed: radar: {angle: ..., angle_within: ...}",
               "held behind the launcher, a little to the side", ours, ""},
    DefaultRow{sound_path, "way of the ball between the two sounds", "within 50 mm",
               "speed: sounds: {path_accuracy: ...}", "where a launcher sounds is not one point",
               ours, ""},
    DefaultRow{sound_microphone, "ways of the sounds to the microphone", "within 100 mm each",
               "speed: sounds: {microphone_accuracy: ...}", "paced or taped", ours, ""},
    DefaultRow{sound_time, "time between the two sounds", "within 5 ms",
               "speed: sounds: {time_accuracy: ...}",
               "a launcher is heard before its ball is free, or after", ours, ""},
    DefaultRow{sound_air, "air temperature for the speed of sound", "17.5 degC, half-width 17.5",
               "speed: sounds: {air: ...}", "0 to 35 degC", ours, ""},
    DefaultRow{speed_display, "display of a clock or a radar", "one step of the last digit typed",
               "trials and shots: time ms, speed mph, in all digits shown",
               "cannot be finer than typed", ours, ""},
    DefaultRow{drop_height, "height of a drop", "within 20 mm", "speed: height_accuracy: ...",
               "a tape along the fall, from the middle of the ball", ours, ""},
    DefaultRow{drop_drag, "drag of a ball that is dropped", "Cd from 0.45 to 0.60",
               "launch: height: ..., the lower the less it matters", "a sphere to a rough stone",
               practice, ""},
    DefaultRow{nominal_setting, "speed by the launcher's setting",
               "within 25 % of what the series asks for", "speed: {by: trial shots, ...}",
               "a setting is no measurement", ours, ""},
    DefaultRow{distance_to_panel, "from the measured stretch to the panel",
               "anywhere that the launch distance allows, 5 m at most when that is not stated",
               "speed: to_panel: ...", "an average speed belongs to the middle of its stretch",
               ours, ""},
    DefaultRow{launcher_drift, "drift of the launcher between trials and shots", "within 1 %",
               "speed: drift: ...", "bands and springs change with use and warmth", ours, ""},
    DefaultRow{air_density, "air density", "1.2 kg/m3, half-width 0.1", "day: {air_density: ...}",
               "1000 m to sea level, 0 to 35 degC, after the ISA atmosphere", read_somewhere, ""},
    DefaultRow{drag, "drag of the ball", "Cd from 0.45 to 0.60",
               "speed: to_panel: ..., the shorter the less it matters", "a sphere to a rough stone",
               practice, ""},
    DefaultRow{melting, "melting before the impact", "between nothing and that of a light wind",
               "shots: out s, the shorter the less it matters", "h = 25 W/(m2 K) at most", ours,
               ""},
    DefaultRow{hit_angle, "angle of a hit", "within 10 deg of straight on", "shots: angle deg",
               "aimed level at an upright panel", ours, ""},
    DefaultRow{launcher_spread, "scatter of the launcher's speed", "3 % (standard)",
               "launch: spread: ...", "a plan needs one; trial shots will show the true one", ours,
               ""},
    DefaultRow{planned_trials, "trial shots planned", "5 at each setting", "speed: trials: ...",
               "fewer cannot support a grade", ours, ""},
    DefaultRow{launch_height, "height of the muzzle", "2 m over the ground", "launch: height: ...",
               "higher than anybody holds a launcher on level ground: a miss flies farther", ours,
               ""},
    DefaultRow{launch_distance, "from the launcher to the panel, in a plan", "5 m",
               "launch: distance: ...", "farther than most launch: the ball leaves the faster",
               ours, ""},
    DefaultRow{display_step, "step of a display", "the finest step in its column",
               "tools: ...: step: ...", "cannot be finer than typed", ours,
               "meter/digits sun/digits"},
};

}  // namespace

std::span<const DefaultRow> default_rows() {
  return rows;
}

namespace {

std::size_t index_of(DefaultId id) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows.at(i).id == id) return i;
  }
  fail_contract("a default without a row");
}

}  // namespace

const DefaultRow& default_row(DefaultId id) {
  return rows.at(index_of(id));
}

void Assumptions::use(DefaultId id) {
  used_[index_of(id)] = true;
}

void Assumptions::use(DefaultId id, Ratio on_energy) {
  use(id);
  auto& kept = on_energy_[index_of(id)];
  kept = kept ? std::max(*kept, on_energy) : on_energy;
}

bool Assumptions::uses(DefaultId id) const {
  return used_[index_of(id)];
}

std::optional<Ratio> Assumptions::on_energy(DefaultId id) const {
  return on_energy_[index_of(id)];
}

std::vector<DefaultId> Assumptions::used() const {
  std::vector<DefaultId> ids;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (used_[i]) ids.push_back(rows.at(i).id);
  }
  return ids;
}

}  // namespace hailwright
