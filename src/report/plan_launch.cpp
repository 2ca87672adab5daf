#include "report/plan_launch.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/plan/reading_order.hpp"
#include "hailwright/report/aim_map.hpp"
#include "hailwright/report/field_sheet.hpp"
#include "report/caution_items.hpp"
#include "report/plan_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string mps(Speed v) {
  return in_unit(v, "m/s", 1);
}

std::string frames(double n) {
  return fixed(n, 1);
}

/// "7.3 to 7.9 g": both ends in one unit.
std::string range(double low_si, double high_si, const char* unit, int decimals) {
  const std::string low = in_unit(low_si, unit, decimals);
  return fmt::format("{} to {}", low.substr(0, low.find(' ')), in_unit(high_si, unit, decimals));
}

/// Decimals that show the window of a ball: a tenth of a gram, a hundredth below 10 g.
int gram_decimals(Mass m) {
  return m.si() < 0.010 ? 2 : 1;
}

class LaunchWriter {
public:
  LaunchWriter(const TestPlan& plan, const LaunchSheet& sheet)
      : plan_(plan), protocol_(*plan.protocol), sheet_(sheet) {}

  void write_launch(Document& out) const {
    out.blocks.push_back(Heading{1, plain("Launch")});
    out.blocks.push_back(Paragraph{plain(
        fmt::format("Safety answers agreed by {} on {}. What is written there must be so at every "
                    "shot.",
                    sheet_.clearance.agreed_by(), sheet_.clearance.agreed_on()))});
    Facts facts;
    for (const LaunchSeries& s : sheet_.series) {
      Fact fact{name(s), {}};
      for (std::string& line : launch_lines(s))
        fact.lines.push_back(plain(std::move(line)));
      facts.items.push_back(std::move(fact));
    }
    out.blocks.push_back(std::move(facts));
    out.blocks.push_back(Paragraph{plain(
        "Shots aimed above the grade can show that the panel withstood it. If it is damaged, some "
        "hits will have been harder than the grade, and the report will say so.")});
    out.blocks.push_back(ball_table());
    for (std::size_t i = 0; i < sheet_.panels.size(); ++i)
      write_panel(i, out);
  }

  void write_sheets(Document& out) const {
    for (std::size_t i = 0; i < sheet_.panels.size(); ++i)
      append_field_sheet(sheet_.clearance, field_sheet(i), out);
  }

private:
  [[nodiscard]] const SeriesPlan& series_of(const LaunchSeries& s) const {
    return protocol_.series[s.series];
  }
  [[nodiscard]] const std::string& name(const LaunchSeries& s) const { return series_of(s).name; }

  [[nodiscard]] std::vector<std::string> launch_lines(const LaunchSeries& s) const {
    const SeriesPlan& series = series_of(s);
    std::vector<std::string> lines;
    const std::string setting = series.setting.empty() ? "" : ", setting " + series.setting;
    if (s.speed) {
      lines.push_back(fmt::format(
          "aim for {} at the panel, {} as it leaves the launcher{}{}", mps(s.speed->at_panel),
          mps(s.speed->at_muzzle),
          s.speed->as_measured ? ", " + mps(*s.speed->as_measured) + " where it is measured" : "",
          setting));
      const std::string window = speed_window(s);
      if (!window.empty()) lines.push_back(window);
    } else {
      lines.push_back("the height of the fall fixes the speed: there is none to aim for");
    }
    if (s.sag) {
      lines.push_back(fmt::format("aimed level it falls {} below the line of aim on its way",
                                  in_unit(*s.sag, "mm", 0)));
    }
    return lines;
  }

  /// Which measured speeds are enough; empty where none is measured.
  [[nodiscard]] std::string speed_window(const LaunchSeries& s) const {
    if (!s.speed || !s.speed->as_measured) return {};
    if (!s.speed->least_measured) {
      return "no measured speed within reason shows a hit to be enough, with this scatter and this "
             "way to measure it";
    }
    const std::string least = mps(*s.speed->least_measured);
    const bool trials = plan_.outlook.series[s.series].trials > 0;
    std::string text =
        trials ? fmt::format("the mean of the trials, where it is measured, not below {}, if they "
                             "scatter no more than planned",
                             least)
               : fmt::format("a measured shot counts from {} on", least);
    if (s.speed->frames_aim && s.speed->frames_most) {
      text += fmt::format("; in frames of the video {} aimed at, not more than {}",
                          frames(*s.speed->frames_aim), frames(*s.speed->frames_most));
    }
    return text;
  }

  [[nodiscard]] static std::string mass_window(const LaunchSeries& s) {
    if (!s.mass) return "your scales cannot show it";
    if (s.mass->most) {
      return range(s.mass->least.si(), s.mass->most->si(), "g", gram_decimals(s.mass->least));
    }
    return fmt::format("{} together at least {}", s.together,
                       in_unit(s.mass->least * static_cast<double>(s.together), "g", 1));
  }

  [[nodiscard]] std::string mass_aim(const LaunchSeries& s) const {
    const Mass mass = s.mass ? s.mass->aim : series_of(s).target.mass;
    std::string text = in_unit(mass, "g", gram_decimals(mass));
    if (s.together > 1) {
      text += fmt::format(" ({} together {})", s.together,
                          in_unit(mass * static_cast<double>(s.together), "g", 1));
    }
    return text;
  }

  [[nodiscard]] static std::string diameter_window(const LaunchSeries& s) {
    return range(s.ball.diameter_low.si(), s.ball.diameter_high.si(), "mm", 1);
  }

  [[nodiscard]] Table ball_table() const {
    Table table{"The balls, as they come out of the freezer",
                {{"series"},
                 {"mass to aim at"},
                 {"mass accepted"},
                 {"diameter accepted"},
                 {"round within"},
                 {"energy", Align::right}},
                {}};
    for (const LaunchSeries& s : sheet_.series) {
      table.rows.push_back({name(s), mass_aim(s), mass_window(s), diameter_window(s),
                            percent_text(s.ball.roundness_max, 0),
                            in_unit(plan_.outlook.series[s.series].nominal, "J", 2)});
    }
    return table;
  }

  [[nodiscard]] std::vector<std::string> series_names() const {
    std::vector<std::string> names;
    for (const SeriesPlan& series : protocol_.series)
      names.push_back(series.name);
    return names;
  }

  static std::string figure_id(std::size_t panel) { return fmt::format("aim-map-{}", panel + 1); }

  [[nodiscard]] std::string order_text(const PanelSheet& panel, std::size_t series) const {
    std::vector<std::string> names;
    for (const std::size_t place : panel.order[series])
      names.push_back(panel.layout.series[series][place].name);
    return fmt::format("{}: {}", protocol_.series[series].name, fmt::join(names, ", "));
  }

  void write_panel(std::size_t index, Document& out) const {
    const PanelSheet& panel = sheet_.panels[index];
    out.blocks.push_back(Heading{2, plain(fmt::format("Places on {}", panel.panel->name))});
    if (panel.panel->size) {
      out.blocks.push_back(aim_map(*panel.panel, panel.layout, series_names(), figure_id(index)));
    } else {
      out.blocks.push_back(Paragraph{plain("No aim map: the panel file gives no size.")});
    }
    out.blocks.push_back(places_table(panel.layout, series_names()));
    Bullets order;
    for (std::size_t i = 0; i < panel.order.size(); ++i)
      order.items.push_back(plain(order_text(panel, i)));
    out.blocks.push_back(Paragraph{plain(
        "Order of the shots, weakest series first, one hit a place; a second hit on a place is "
        "reported apart:")});
    out.blocks.push_back(std::move(order));
  }

  [[nodiscard]] FieldSheet field_sheet(std::size_t index) const;
  [[nodiscard]] FieldSheetSeries field_series(const PanelSheet& panel, const LaunchSeries& s) const;

  const TestPlan& plan_;
  const Protocol& protocol_;
  const LaunchSheet& sheet_;
};

/// A, B, ... Z, AA, AB, ...: the struck panel is 0, its siblings follow.
std::string panel_letter(int n) {
  constexpr int letters = 26;
  std::string out;
  for (; n >= 0; n = n / letters - 1)
    out.insert(out.begin(), static_cast<char>('A' + n % letters));
  return out;
}

/// The readings of a set-up in their turn, by the labels that a record gives its panels.
void add_reading_order(const MeasurementPlan& m, int siblings, FieldSheet& sheet) {
  const auto label = [&](const PlannedReading& r) {
    if (siblings > 0) return panel_letter(r.unit);
    return std::string(r.of == ReadingOf::control ? "control" : "panel");
  };
  for (const PlannedReading& r :
       reading_order(m.compare, m.meters.value_or(1), sheet.readings, siblings)) {
    if (r.of == ReadingOf::both) {
      sheet.reading_order.insert(sheet.reading_order.end(), {"control", "panel"});
    } else {
      sheet.reading_order.push_back(label(r));
    }
  }
}

/// The columns of docs/tables.md that the protocol's way to know a speed needs.
std::vector<std::string> speed_columns(const SpeedMethod& method) {
  if (!method.measures()) return {};
  switch (method.way()) {
  case SpeedWay::frames:
    return {"frames"};
  case SpeedWay::positions:
    return {"frames", "moved mm"};
  case SpeedWay::gates:
  case SpeedWay::sounds:
    return {"time ms"};
  case SpeedWay::typed:
  case SpeedWay::radar:
    return {"speed m/s"};
  }
  fail_contract("unknown way to measure a speed");
}

FieldSheet LaunchWriter::field_sheet(std::size_t index) const {
  const PanelSheet& panel = sheet_.panels[index];
  FieldSheet sheet;
  sheet.panel = panel.panel->name;
  sheet.test_title = protocol_.title;
  sheet.fingerprint = text(protocol_.mark);
  for (const LaunchSeries& s : sheet_.series)
    sheet.series.push_back(field_series(panel, s));
  if (panel.panel->size) {
    sheet.aim_map =
        aim_map(*panel.panel, panel.layout, series_names(), figure_id(index) + "-sheet");
  }
  sheet.stop_rules = stop_rules();
  sheet.speed_columns = speed_columns(protocol_.speed);
  sheet.each_shot_measured = protocol_.speed.by == SpeedSource::each_shot;
  for (const Caution* c : plan_.outlook.hazards)
    sheet.cautions.push_back(caution_item(*c));
  const MeasurementPlan& m = protocol_.measure;
  if (protocol_.decide.judges_power) {
    const PlannedUnits units = planned_units(m);
    sheet.setups_before = units.before;
    sheet.setups_after = units.after;
    sheet.readings = m.readings.value_or(1);
    sheet.control = m.compare == Comparison::control_panel;
    for (int unit = 1; unit <= units.siblings; ++unit)
      sheet.siblings.push_back(panel_letter(unit));
    if (units.siblings > 0) sheet.label = panel_letter(0);
    if (m.compare != Comparison::same_panel) add_reading_order(m, units.siblings, sheet);
  }
  return sheet;
}

FieldSheetSeries LaunchWriter::field_series(const PanelSheet& panel, const LaunchSeries& s) const {
  const SeriesPlan& series = series_of(s);
  FieldSheetSeries out;
  out.name = series.name;
  out.ball = fmt::format("{} ice, {}", in_unit(series.target.diameter, "mm", 1), mass_aim(s));
  out.setting = series.setting;
  if (s.speed && s.speed->as_measured) {
    out.speed_window = fmt::format("aim for {} where it is measured; {}",
                                   mps(*s.speed->as_measured), speed_window(s));
  } else if (s.speed) {
    out.speed_window = fmt::format("aim for {} at the panel", mps(s.speed->at_panel));
  }
  out.mass_window = mass_window(s);
  out.diameter_window = diameter_window(s);
  for (const std::size_t place : panel.order[s.series]) {
    const PlacedTarget& target = panel.layout.series[s.series][place];
    out.places.push_back({target.number, target.name,
                          target.at
                              ? fmt::format("{} x {} mm", fixed(target.at->right.si() * 1e3, 0),
                                            fixed(target.at->up.si() * 1e3, 0))
                              : std::string()});
  }
  const SeriesOutlook& outlook = plan_.outlook.series[s.series];
  const auto panels = static_cast<int>(sheet_.panels.size());
  // This panel's share of the balls; without a number of them, twice the places.
  out.balls = outlook.balls ? (*outlook.balls + panels - 1) / panels
                            : 2 * static_cast<int>(series.places.size());
  return out;
}

}  // namespace

void append_launch(const TestPlan& plan, const LaunchSheet& sheet, Document& out) {
  LaunchWriter(plan, sheet).write_launch(out);
}

void append_field_sheets(const TestPlan& plan, const LaunchSheet& sheet, Document& out) {
  LaunchWriter(plan, sheet).write_sheets(out);
}

}  // namespace hailwright
