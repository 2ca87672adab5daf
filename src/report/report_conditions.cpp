// How the balls were made and thrown, and how the panel was held.
#include <fmt/format.h>

#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "report/judgement_done.hpp"
#include "report/report_json_words.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/tool_words.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using Lines = std::vector<std::string>;

template <Measured Q>
std::string amount_or_unstated(const std::optional<Q>& value, const char* unit, int decimals) {
  return value ? in_unit(*value, unit, decimals) : "not stated";
}

std::vector<double> in_mm(const std::vector<Length>& lengths) {
  std::vector<double> mm;
  for (const Length length : lengths)
    mm.push_back(length.si() * 1000.0);
  return mm;
}

/// "25.07 (n 3, s 0.15)": mean, number and standard deviation; a single one has no spread.
std::string summary(const std::vector<double>& values, int decimals) {
  if (values.empty()) return "";
  const auto sd = sample_sd(values);
  return fmt::format("{} (n {}{})", fixed(mean(values), decimals), values.size(),
                     sd ? ", s " + fixed(*sd, decimals) : "");
}

Table balls_table(const Record& record) {
  Table table{"Balls as they were weighed and measured; s is the standard deviation",
              {{"kind"},
               {"balls", Align::right},
               {"together [g]", Align::right},
               {"each [g]", Align::right},
               {"diameter [mm]", Align::right},
               {"note"}},
              {}};
  for (const BallKind& ball : record.balls) {
    const auto grams = [&](double share) {
      return ball.together ? plain_number(ball.together->si() * 1000.0 * share, 6) : "";
    };
    table.rows.push_back({ball.kind, std::to_string(ball.count), grams(1.0),
                          grams(1.0 / ball.count), summary(in_mm(ball.diameters), 2), ball.note});
  }
  return table;
}

/// Balls that were weighed or measured one by one, as the table of shots has them.
Lines single_balls(const ReportPart& part) {
  Lines lines;
  for (std::size_t s = 0; s < part.protocol.series.size(); ++s) {
    std::vector<double> grams;
    std::vector<double> mm;
    for (const Shot& shot : part.record.shots) {
      if (shot.series != s) continue;
      if (shot.mass) grams.push_back(shot.mass->si() * 1000.0);
      const std::vector<double> diameters = in_mm(shot.diameters);
      if (!diameters.empty()) mm.push_back(mean(diameters));
    }
    const std::string& name = part.protocol.series[s].name;
    if (!grams.empty()) {
      lines.push_back(fmt::format("{}: {} g, each weighed by itself", name, summary(grams, 2)));
    }
    if (!mm.empty()) {
      lines.push_back(fmt::format("{}: {} mm, each measured by itself", name, summary(mm, 2)));
    }
  }
  return lines;
}

Lines rejects(const ReportPart& part) {
  Lines lines;
  if (const auto& made = part.protocol.ice.made) {
    lines.push_back(fmt::format("{} made when the protocol was written, {} of them rejected",
                                made->tried, made->tried - made->good));
  }
  int broken = 0;
  for (const SeriesDelivery& d : part.assessment.delivery)
    broken += d.broken;
  lines.push_back(fmt::format("{} broke before the panel", broken));
  return lines;
}

Lines moulds(const Ice& ice) {
  Lines lines;
  for (const Mould& mould : ice.moulds) {
    lines.push_back(
        fmt::format("{} for balls of {}", mould.cavities, in_unit(mould.ball, "mm", 0)));
  }
  return lines;
}

}  // namespace

void append_ice(Document& out, const ReportPart& part) {
  part.section(out, "Balls and ice", "ice");
  const Ice& ice = part.protocol.ice;
  Facts facts;
  add_fact(facts, "water", {or_unstated(ice.water)});
  add_fact(facts, "freezer", {amount_or_unstated(ice.freezer, "degC", 0)});
  add_fact(facts, "cavities of moulds", moulds(ice));
  if (ice.weighed_together) {
    add_fact(facts, "weighed",
             {*ice.weighed_together == 1 ? std::string("one by one")
                                         : fmt::format("{} at once", *ice.weighed_together)});
  }
  add_fact(facts, "single balls", single_balls(part));
  add_fact(facts, "rejected", rejects(part));
  add_fact(facts, "scales", {tool_text(part.protocol.tools.scales, "g")});
  add_fact(facts, "calipers", {tool_text(part.protocol.tools.calipers, "mm")});
  out.blocks.push_back(std::move(facts));
  if (!part.record.balls.empty()) out.blocks.push_back(balls_table(part.record));
}

namespace {

std::string source_text(const SpeedMethod& speed) {
  switch (speed.by) {
  case SpeedSource::trial_shots:
    return "by measured trial shots at a dummy, at the same setting";
  case SpeedSource::each_shot:
    return "measured at every shot";
  case SpeedSource::drop:
    return "computed from the height of a fall";
  case SpeedSource::setting:
    return "the launcher's setting, not measured: it supports no grade";
  }
  fail_contract("unknown source of a speed");
}

std::string way_text(const SpeedMethod& speed) {
  switch (speed.way()) {
  case SpeedWay::typed:
    return "speeds as typed, of a meter or worked out by hand";
  case SpeedWay::frames:
    return fmt::format("frames of a video of {} per second over {}",
                       plain_number(speed.video->si(), 6),
                       plain_number(speed.length->si(), 5) + " m");
  case SpeedWay::positions:
    return fmt::format("positions in two pictures of a video of {} per second",
                       plain_number(speed.positions->video.si(), 6));
  case SpeedWay::gates:
    return "time between two gates " + in_unit(speed.gates->spacing, "m", 3) + " apart";
  case SpeedWay::radar:
    return "a radar";
  case SpeedWay::sounds:
    return "time between the sounds of launch and impact";
  }
  fail_contract("unknown way of a speed");
}

Lines trial_lines(const ReportPart& part) {
  Lines lines;
  for (const SeriesDelivery& d : part.assessment.delivery) {
    if (!d.trials) continue;
    lines.push_back(fmt::format(
        "{}: n {}, mean {}, s {}; {} at the panel", part.protocol.series[d.series].name,
        d.trials->n, in_unit(d.trials->mean, "m/s", 2),
        percent_text(Ratio::from_si(d.trials->scatter)),
        d.trial_speed_at_panel ? in_unit(*d.trial_speed_at_panel, "m/s", 2) : "not known"));
  }
  return lines;
}

}  // namespace

void append_speed(Document& out, const ReportPart& part) {
  part.section(out, "Speed", "speed");
  const SpeedMethod& speed = part.protocol.speed;
  const Launch& launch = part.protocol.launch;
  Facts facts;
  Lines how{source_text(speed)};
  if (speed.measures()) how.push_back(way_text(speed));
  add_fact(facts, "how it is known", std::move(how));
  add_fact(facts, "launcher",
           {std::string(json::word(launch.kind)),
            "to the panel: " + amount_or_unstated(launch.distance, "m", 2)});
  add_fact(facts, "measured base",
           {"its middle to the panel: " + amount_or_unstated(speed.to_panel, "m", 2)});
  add_fact(facts, "trial shots", trial_lines(part));
  add_fact(
      facts, "at the panel",
      {"speeds and energies below are those at the panel: what drag takes between the measured "
       "base and the panel is taken off, with its uncertainty"});
  out.blocks.push_back(std::move(facts));
}

namespace {

std::string yes_no(const std::optional<bool>& flag) {
  return !flag ? "not stated" : *flag ? "yes" : "no";
}

/// A line for each condition that is stated, and one for all that are not.
Lines condition_lines(const Conditions& c, bool hail) {
  std::vector<std::pair<const char*, std::string>> all = {
      {"panels clean and dry", yes_no(c.clean_and_dry)},
      {"same leads before and after", yes_no(c.same_leads)},
      {"same instruments in all stages", yes_no(c.same_tools)},
      {"new panels in the sun before", yes_no(c.pre_exposed)},
      {"in the sun before the readings", amount_or_unstated(c.in_sun_first, "min", 0)},
      {"sun from the normal, at most", amount_or_unstated(c.incidence, "deg", 0)},
      {"change of that between the stages", amount_or_unstated(c.incidence_change, "deg", 0)}};
  if (hail) {
    all.emplace_back("from the last shot to the readings",
                     amount_or_unstated(c.since_last_shot, "min", 0));
  }
  Lines lines;
  std::string unstated;
  for (const auto& [condition, said] : all) {
    if (said != or_unstated("")) {
      lines.push_back(fmt::format("{}: {}", condition, said));
    } else {
      unstated += (unstated.empty() ? "not stated: " : "; ") + std::string(condition);
    }
  }
  if (!unstated.empty()) lines.push_back(unstated);
  return lines;
}

}  // namespace

void append_mounting(Document& out, ReportPart& part) {
  part.section(out, "Mounting and day", "mounting");
  const Record& r = part.record;
  Facts facts;
  const bool hail = !part.protocol.series.empty();
  add_fact(facts, hail ? "mounting at the shots" : "mounting", {or_unstated(r.mounting)});
  if (hail)
    add_fact(facts, "panel at the shots", {amount_or_unstated(r.panel_at_shots, "degC", 0)});
  add_fact(facts, hail ? "day of the shots" : "day of the test", {r.date});
  add_fact(facts, "air", {amount_or_unstated(r.air, "degC", 0)});
  add_fact(facts, "weather", {or_unstated(r.weather)});
  add_fact(facts, "measuring", condition_lines(r.conditions, hail));
  out.blocks.push_back(std::move(facts));
  for (const RecordPhoto& photo : r.photos)
    part.append_photo(out, photo.file);
}

}  // namespace hailwright
