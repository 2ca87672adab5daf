#include "hailwright/model/speed_reading.hpp"

namespace hailwright {

namespace {

std::optional<Speed> unrolled(const SpeedMethod& m, Speed apparent) {
  if (!m.shutter) return apparent;
  const ShutterOfVideo& s = *m.shutter;
  if (!rolling_shutter_fits(apparent, s.readout, s.field, s.flight)) return std::nullopt;
  return without_rolling_shutter({apparent, {}}, {s.readout, Time{}}, s.field, s.flight).value;
}

std::optional<Speed> by_frames(const SpeedMethod& m, const SpeedReading& r) {
  if (!r.frames || !m.video || !m.length) return r.speed;
  return unrolled(m, speed_by_frames(*r.frames, {*m.video}, {*m.length}, 0.0).value);
}

std::optional<Speed> by_positions(const SpeedMethod& m, const SpeedReading& r) {
  if (!r.frames || !r.moved) return std::nullopt;
  const Estimate<FrameRate> rate{m.positions->video};
  return unrolled(m, speed_by_positions(*r.moved, Length{}, *r.frames, rate, 0.0, 0.0).value);
}

std::optional<Speed> by_sounds(const SpeedMethod& m, const SpeedReading& r) {
  if (!r.time) return std::nullopt;
  const TwoSounds sounds = two_sounds(*m.sounds, *r.time);
  if (flight_time(sounds).si() <= 0.0) return std::nullopt;
  return speed_by_sounds(sounds).value;
}

}  // namespace

SpeedReading speed_reading(const Trial& trial) {
  return {trial.speed, trial.step, trial.frames, trial.moved, trial.time, trial.time_step};
}

SpeedReading speed_reading(const Shot& shot) {
  return {shot.speed, shot.speed_step, shot.frames, shot.moved, shot.time, shot.time_step};
}

TwoSounds two_sounds(const SoundsWay& way, Time between) {
  TwoSounds sounds;
  sounds.path = {way.path, Length{}};
  sounds.launcher_to_microphone = way.launcher_to_microphone;
  sounds.panel_to_microphone = way.panel_to_microphone;
  sounds.sound = {speed_of_sound(way.air.value_or(speed_unstated::sound_air)), Speed{}};
  sounds.between = between;
  return sounds;
}

std::optional<Speed> speed_of(const SpeedMethod& m, const SpeedReading& r) {
  switch (m.way()) {
  case SpeedWay::typed:
    return r.speed;
  case SpeedWay::frames:
    return by_frames(m, r);
  case SpeedWay::positions:
    return by_positions(m, r);
  case SpeedWay::gates:
    if (!r.time) return std::nullopt;
    return speed_by_gates({m.gates->spacing, Length{}}, *r.time, Time{}, Time{}).value;
  case SpeedWay::radar:
    if (!r.speed) return std::nullopt;
    return speed_by_radar(*r.speed, Speed{}, Speed{},
                          m.radar->angle.value_or(speed_unstated::radar_angle), Angle{})
        .value;
  case SpeedWay::sounds:
    return by_sounds(m, r);
  }
  return std::nullopt;
}

}  // namespace hailwright
