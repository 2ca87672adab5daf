#include "hailwright/report/compose_speed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/caution_items.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string_view text(SpeedError error) {
  switch (error) {
  case SpeedError::counting:
    return "counting whole frames";
  case SpeedError::position:
    return "reading two positions";
  case SpeedError::length:
    return "length of the base";
  case SpeedError::scale:
    return "scale of the picture";
  case SpeedError::parallax:
    return "parallax";
  case SpeedError::frame_rate:
    return "frame rate";
  case SpeedError::shutter:
    return "read-out of the picture";
  case SpeedError::timing:
    return "timing";
  case SpeedError::display:
    return "last digit of the display";
  case SpeedError::meter:
    return "the meter";
  case SpeedError::angle:
    return "angle of the beam";
  case SpeedError::sound:
    return "ways of the sounds";
  case SpeedError::height:
    return "height of the fall";
  case SpeedError::drag:
    return "drag of the ball";
  case SpeedError::air:
    return "density of the air";
  case SpeedError::ball:
    return "density of the ball";
  case SpeedError::setting:
    return "not measured";
  }
  fail_contract("unknown term of a speed");
}

std::string_view id(SpeedError error) {
  switch (error) {
  case SpeedError::counting:
    return "counting";
  case SpeedError::position:
    return "position";
  case SpeedError::length:
    return "length";
  case SpeedError::scale:
    return "scale";
  case SpeedError::parallax:
    return "parallax";
  case SpeedError::frame_rate:
    return "frame_rate";
  case SpeedError::shutter:
    return "shutter";
  case SpeedError::timing:
    return "timing";
  case SpeedError::display:
    return "display";
  case SpeedError::meter:
    return "meter";
  case SpeedError::angle:
    return "angle";
  case SpeedError::sound:
    return "sound";
  case SpeedError::height:
    return "height";
  case SpeedError::drag:
    return "drag";
  case SpeedError::air:
    return "air";
  case SpeedError::ball:
    return "ball";
  case SpeedError::setting:
    return "setting";
  }
  fail_contract("unknown term of a speed");
}

namespace {

std::string with_u(Speed value, Speed u) {
  const int decimals = decimals_for(u.si());
  return fmt::format("{}, u {} ({})", in_unit(value, "m/s", decimals), in_unit(u, "m/s", decimals),
                     percent_text(u / value));
}

/// Twice u: 95 % where no single term rules, more than that where one bounded term does.
std::string half_width(Speed u) {
  return fmt::format("within {} at 95 % or more (k = 2)",
                     in_unit(2.0 * u, "m/s", decimals_for(u.si())));
}

std::string length_text(Length l) {
  const bool metres = l.si() >= 1.0;
  return fmt::format("{} {}", plain_number(metres ? l.si() : l.si() * 1000.0, 4),
                     metres ? "m" : "mm");
}

/// "1 frame", "20.5 frames".
std::string counted_frames(double frames) {
  return fmt::format("{} {}", plain_number(frames, 6), frames == 1.0 ? "frame" : "frames");
}

std::string shutter_text(const ShutterOfVideo& s, Speed value) {
  if (s.flight == FlightInPicture::across) return "flight across the read-out: nothing to correct";
  const double factor = rolling_shutter_factor(value, s.readout, s.field, s.flight);
  return fmt::format("flight {} the read-out: the picture showed it {} too {}, taken out",
                     s.flight == FlightInPicture::along ? "along" : "against",
                     percent_text(Ratio::from_si(std::abs(factor - 1.0))),
                     factor > 1.0 ? "fast" : "slow");
}

std::string sounds_text(const SpeedQuestion& q) {
  TwoSounds s = two_sounds(*q.method.sounds, *q.reading.time);
  return fmt::format("{} in {} ms, of {} ms between the sounds (sound at {} m/s)",
                     length_text(s.path.value), fixed(flight_time(s).si() * 1000.0, 1),
                     fixed(s.between.si() * 1000.0, 1), fixed(s.sound.value.si(), 1));
}

std::string way_text(const SpeedQuestion& q) {
  const SpeedMethod& m = q.method;
  const SpeedReading& r = q.reading;
  if (m.by == SpeedSource::setting) return "the launcher's setting, not measured";
  if (m.by == SpeedSource::drop) {
    return fmt::format("a fall of {} from rest, computed", length_text(*q.fall));
  }
  switch (m.way()) {
  case SpeedWay::typed:
    return "as typed";
  case SpeedWay::frames:
    return fmt::format("{} over {} at {} fps", counted_frames(*r.frames), length_text(*m.length),
                       plain_number(m.video->si(), 6));
  case SpeedWay::positions:
    return fmt::format("{} moved in {} at {} fps", length_text(*r.moved), counted_frames(*r.frames),
                       plain_number(m.positions->video.si(), 6));
  case SpeedWay::gates:
    return fmt::format("{} between two gates in {} ms", length_text(m.gates->spacing),
                       plain_number(r.time->si() * 1000.0, 6));
  case SpeedWay::radar:
    return fmt::format("radar reading {}, divided by the cosine of {}", in_unit(*r.speed, "m/s", 2),
                       in_unit(m.radar->angle.value_or(defaults::radar_angle), "deg", 1));
  case SpeedWay::sounds:
    return sounds_text(q);
  }
  fail_contract("unknown way of a speed");
}

std::string warning_text(SpeedWarning warning, const SpeedAnswer& a) {
  switch (warning) {
  case SpeedWarning::few_frames:
    return "fewer than 20 frames: counting them costs more than 2 %; take a longer base or a "
           "faster video, or read positions";
  case SpeedWarning::shutter_not_known:
    return "a camera that reads its picture out row by row shows a flight along the read-out too "
           "fast and one against it too slow, by a tenth and more; across it there is nothing to "
           "correct. State it, or film so that the ball flies across";
  case SpeedWarning::blurred:
    return fmt::format("motion blur of {}, more than half the ball: its place in a picture is "
                       "doubtful; more light allows a shorter exposure",
                       length_text(*a.blur));
  case SpeedWarning::weak_drop:
    if (!a.fastest_terminal) {
      return "a drop carries a small part of the energy of the published hail grades and says "
             "nothing about them";
    }
    return fmt::format(
        "a drop carries a small part of the energy of the published hail grades and "
        "says nothing about them: it cannot make a speed above the {} to {} at which "
        "this ball stops getting faster",
        fixed(a.slowest_terminal->si(), 1), in_unit(*a.fastest_terminal, "m/s", 1));
  case SpeedWarning::not_measured:
    return "a setting is no measurement: this speed can never show that a grade was delivered";
  }
  fail_contract("unknown warning of a speed");
}

/// The option that replaces an assumed value.
std::string_view option_of(DefaultId id) {
  switch (id) {
  case DefaultId::video_length:
    return "--length-accuracy";
  case DefaultId::parallax:
    return "--parallax";
  case DefaultId::frame_rate:
    return "--rate-accuracy";
  case DefaultId::position_reading:
    return "--position-accuracy";
  case DefaultId::picture_scale:
    return "--scale-accuracy";
  case DefaultId::shutter_readout:
    return "--readout-accuracy";
  case DefaultId::gate_spacing:
    return "--gates-accuracy";
  case DefaultId::gate_time:
  case DefaultId::sound_time:
    return "--time-accuracy";
  case DefaultId::speed_accuracy:
    return "--radar-accuracy";
  case DefaultId::radar_angle:
    return "--angle and --angle-within";
  case DefaultId::sound_path:
    return "--path-accuracy";
  case DefaultId::sound_microphone:
    return "--microphone-accuracy";
  case DefaultId::sound_air:
    return "--air";
  case DefaultId::drop_height:
    return "--drop-accuracy";
  case DefaultId::drag:
    return "a shorter way to the panel";
  case DefaultId::air_density:
    return "--altitude and --air";
  case DefaultId::density:
    return "--mass";
  case DefaultId::speed_display:
    return "more digits, if the display has them";
  case DefaultId::nominal_setting:
    return "a measured speed";
  default:
    return "nothing replaces it";
  }
}

Table terms_table(const MeasuredSpeed& v) {
  std::vector<SpeedTerm> terms = v.terms;
  std::stable_sort(terms.begin(), terms.end(),
                   [](const SpeedTerm& a, const SpeedTerm& b) { return a.u > b.u; });
  Table table{"What the speed can be wrong by (standard uncertainty)",
              {{"term"}, {"u", Align::right}, {"in further shots"}},
              {}};
  for (const SpeedTerm& t : terms) {
    if (t.u == 0.0) continue;
    table.rows.push_back({std::string(text(t.from)), significant(t.u * 100.0, 2) + " %",
                          t.shared ? "the same again" : "anew each time"});
  }
  return table;
}

void add_assumed(Document& out, const SpeedAnswer& a) {
  const std::vector<DefaultId> used = a.assumptions.used();
  if (used.empty()) return;
  out.blocks.push_back(Heading{2, plain("Assumed for you")});
  Table table{"", {{"what"}, {"taken"}, {"adds", Align::right}, {"give instead"}, {"known"}}, {}};
  for (const DefaultId id : used) {
    const DefaultRow& row = default_row(id);
    const auto energy = a.assumptions.on_energy(id);
    table.rows.push_back({std::string(row.what), std::string(row.taken),
                          energy ? significant(50.0 * energy->si(), 2) + " %" : "",
                          std::string(option_of(id)), std::string(text(row.status))});
  }
  out.blocks.push_back(std::move(table));
}

}  // namespace

Document compose_speed(const SpeedAnswer& a) {
  const SpeedMethod& m = a.question.method;
  const Speed v = a.measured.value;
  const Speed u = v * a.measured.standard_u();
  Document out;
  out.title = "One speed";
  Facts facts;
  facts.items.push_back({m.by == SpeedSource::drop ? "speed at the end" : "speed",
                         {{{with_u(v, u), Tone::strong}}, plain(half_width(u))}});
  facts.items.push_back({"from", {plain(way_text(a.question))}});
  if (m.shutter) facts.items.push_back({"camera", {plain(shutter_text(*m.shutter, v))}});
  if (a.blur) {
    facts.items.push_back(
        {"motion blur", {plain(fmt::format("{} in one exposure", length_text(*a.blur)))}});
  }
  if (a.at_panel) {
    facts.items.push_back({"at the panel",
                           {{{with_u(a.at_panel->value, a.at_panel->standard_u), Tone::strong}},
                            plain(half_width(a.at_panel->standard_u))}});
  }
  for (const SpeedWarning w : a.warnings)
    facts.items.push_back({"warning", {{{warning_text(w, a), Tone::bad}}}});
  out.blocks.push_back(std::move(facts));
  out.blocks.push_back(terms_table(a.measured));
  add_assumed(out, a);
  append_cautions(out, a.cautions);
  return out;
}

}  // namespace hailwright
