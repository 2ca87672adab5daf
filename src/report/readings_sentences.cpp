#include "report/readings_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/readings_clock.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string counted_as(std::int64_t n, std::string_view noun, std::string_view plural) {
  return fmt::format("{} {}", n, n == 1 ? noun : plural);
}

/// The scatter of the rows, where they say least. [ours] From simulated autoregressive series: with
/// fewer than ten effective readings the 95 % interval covered 54 to 87 %.
constexpr double few_effective = 10.0;

double variance_share(const std::vector<BudgetRow>& budget, std::string_view id_begins) {
  double all = 0.0;
  double part = 0.0;
  for (const BudgetRow& row : budget) {
    const double v = row.contribution() * row.contribution();
    all += v;
    if (row.input.id.starts_with(id_begins)) part += v;
  }
  return all > 0.0 ? part / all : 0.0;
}

}  // namespace

std::string within_text(double value, double standard_u, double half_width, const char* unit) {
  const std::string of = std::string(*unit == '\0' ? "" : " ") + unit;
  if (!(standard_u > 0.0)) {
    return fmt::format("{}{}, without any known uncertainty", plain_number(value, 6), of);
  }
  const int decimals = decimals_for(standard_u);
  return fmt::format("{}{} ±\u00a0{}{} (95 %)", fixed(value, decimals), of,
                     fixed(half_width, decimals), of);
}

std::string ratio_text(const LogNumber<Ratio>& number) {
  return within_text(number.estimate.value.si(), number.estimate.standard_u.si(),
                     number.half_width().si(), "");
}

std::string counted_rows(std::int64_t rows) {
  return counted_as(rows, "row", "rows");
}

std::string share_text(double part, double all) {
  if (!(all > 0.0)) return "0 %";
  const double share = part / all;
  if (share == 0.0) return "0 %";
  if (share < 1e-4) return "less than 0.01 %";
  return significant(share * 100.0, 2) + " %";
}

std::string bytes_text(std::int64_t bytes) {
  const auto size = static_cast<double>(bytes);
  if (bytes < 10'000) return counted_as(bytes, "byte", "bytes");
  if (size < 1e6) return significant(size / 1e3, 3) + " kB";
  return size < 1e9 ? significant(size / 1e6, 3) + " MB" : significant(size / 1e9, 3) + " GB";
}

std::string files_text(const std::vector<std::string>& files) {
  if (files.empty()) return "no file";
  constexpr std::size_t most_named = 3;  // [ours]
  if (files.size() <= most_named) return enumerate(files);
  return fmt::format("{}, {} and {} more", files[0], files[1], files.size() - 2);
}

std::string shown_file(const std::string& typed) {
  return typed == "-" ? "standard input" : typed;
}

std::string published_file(const std::string& typed) {
  return typed.starts_with('/') ? typed.substr(typed.rfind('/') + 1) : shown_file(typed);
}

std::string names_text(std::vector<std::string> files) {
  for (std::string& file : files)
    file = shown_file(file).substr(file.rfind('/') + 1);
  return files_text(files);
}

std::string no_energy_sentence(const LogStretch& s, Time longest_gap) {
  // With a steady rule the count is of the kept rows alone.
  if (s.power.count == 0 && !s.steady) return "no energy: no row has a power";
  return "no energy: no two powers follow each other within " + duration_text(longest_gap.si());
}

std::string log_headline(const ReadingsAnswer& a) {
  const LogStretch& whole = a.findings.whole;
  const StretchNumbers& n = a.results.whole;
  const std::string files = names_text(a.files);
  if (whole.rows == 0) return fmt::format("{}: no row could be used.", files);
  if (!n.energy || !n.mean_power) {
    return fmt::format("{}: {}, but {}.", files, counted_rows(whole.rows),
                       no_energy_sentence(whole, a.question.rules.longest_gap));
  }
  return fmt::format("{}: {} in {}, on average {}.", files, number_text(*n.energy, "Wh"),
                     duration_text(whole.bridged_s), number_text(*n.mean_power, "W"));
}

std::string read_sentence(const LogTally& t) {
  return fmt::format("{} used, of {}, {}", counted_rows(t.rows),
                     counted_as(t.lines, "line", "lines"), bytes_text(t.bytes));
}

std::string unused_sentence(const LogTally& t) {
  if (t.unreadable + t.out_of_order == 0) return "no row: all could be read and stand in order";
  return fmt::format("{} could not be read, {} before the time of an earlier one: none of them is "
                     "in any number here",
                     counted_rows(t.unreadable),
                     t.out_of_order == 1 ? "1 stands" : fmt::format("{} stand", t.out_of_order));
}

std::string met_sentence(const LogTally& t) {
  std::vector<std::string> met;
  if (t.same_time > 0) {
    met.push_back(
        fmt::format("{} with the time of the row before (used)", counted_rows(t.same_time)));
  }
  if (t.repeated_headers > 0) {
    met.push_back(counted_as(t.repeated_headers, "repeated header", "repeated headers"));
  }
  if (t.comments > 0) {
    met.push_back(counted_as(t.comments, "blank line or comment", "blank lines and comments"));
  }
  return enumerate(met);
}

std::string gaps_sentence(const LogStretch& s, Time longest_gap) {
  const std::string limit = duration_text(longest_gap.si());
  if (s.gaps == 0) return fmt::format("none: no step in time is longer than {}", limit);
  return fmt::format("{} longer than {}, {} together, {} of the time: no energy is counted there",
                     counted_as(s.gaps, "step in time is", "steps in time are"), limit,
                     duration_text(s.in_gaps_s),
                     share_text(s.in_gaps_s, s.in_gaps_s + s.bridged_s));
}

std::string steady_rule_text(const SteadyRule& r) {
  return fmt::format(
      "windows of {} are kept in which irradiance changes by at most {}, drifts by at most {} from "
      "the first third to the last, and the temperature changes by at most {} K",
      duration_text(r.window.si()), limit_text(r.irradiance_change), limit_text(r.ramp),
      plain_number(r.temperature_change.si(), 3));
}

std::string removed_sentence(const SteadyTally& t) {
  const std::int64_t removed = t.rows_irradiance + t.rows_ramp + t.rows_temperature + t.rows_broken;
  const std::int64_t all = removed + t.rows_kept;
  if (removed == 0) return fmt::format("the steady rule removed none of {}", counted_rows(all));
  std::vector<std::string> reasons;
  const auto add = [&](std::int64_t rows, const char* reason) {
    if (rows > 0) {
      reasons.push_back(
          fmt::format("{}: {} ({})", reason, rows,
                      share_text(static_cast<double>(rows), static_cast<double>(all))));
    }
  };
  add(t.rows_irradiance, "irradiance changed");
  add(t.rows_ramp, "irradiance drifted");
  add(t.rows_temperature, "temperature changed");
  add(t.rows_broken, "a window with a gap, too few rows or no irradiance");
  return fmt::format("the steady rule removed {} of {} ({}). {}", removed, counted_rows(all),
                     share_text(static_cast<double>(removed), static_cast<double>(all)),
                     capitalised(enumerate(reasons)));
}

std::string worth_sentence(const SeriesMean& s, std::string_view of) {
  if (s.count == 0) return "no reading";
  const std::string of_what = of.empty() ? "" : fmt::format(" of {}", of);
  return fmt::format("{}{} worth {} (lag-1 autocorrelation {})",
                     counted_as(s.count, "reading", "readings"), of_what,
                     s.effective < 1.05 ? "one independent one"
                                        : plain_number(s.effective, s.effective < 100.0 ? 2 : 3) +
                                              " independent ones",
                     fixed(s.lag1, 2));
}

std::string named_worth_sentence(const LogStretch& s) {
  if (!s.normalised) return worth_sentence(s.power_series, "power");
  std::string text = worth_sentence(*s.normalised, "normalised power");
  const std::int64_t without = s.power_series.count - s.normalised->count;
  if (without <= 0) return text;
  return fmt::format("{}; {} without it: the load was off, the irradiance low, or a cell blank",
                     text, counted_as(without, "reading of power is", "readings of power are"));
}

std::string few_readings_sentence(LogScatter scatter, const SeriesMean& series) {
  switch (scatter) {
  case LogScatter::none:
    return {};
  case LogScatter::not_known:
    return "a single reading has no scatter to be known: the uncertainty is that of the "
           "instruments alone";
  case LogScatter::one_reading:
    return fmt::format("{} are too few to tell how they hang together: they count as one "
                       "independent reading, with the scatter of them all",
                       counted_as(series.count, "reading", "readings"));
  case LogScatter::effective:
    if (series.effective >= few_effective) return {};
    return "fewer than ten independent readings: their autocorrelation is itself badly known, and "
           "the interval rather too narrow";
  }
  fail_contract("unknown scatter");
}

std::string counter_sentence(const LogStretch& s, const StretchNumbers& n) {
  expects(s.counter.has_value(), "a counter");
  const CounterReading& c = *s.counter;
  const int decimals = std::max(0, decimals_for(std::max(c.step_j / 3600.0, 0.001)) - 1);
  std::string text = "the counter gives " + in_unit(c.counted, "Wh", decimals);
  std::vector<std::string> falls;
  if (c.resets > 0) falls.push_back(counted_as(c.resets, "reset", "resets"));
  if (c.wraps > 0) falls.push_back(counted_as(c.wraps, "wrap-around", "wrap-arounds"));
  if (!falls.empty()) text += " over " + enumerate(falls);
  if (c.across_gaps) {
    text += fmt::format(", {} of it in the gaps", in_unit(c.in_gaps, "Wh", decimals));
  }
  if (c.resets > 0) text += "; what it counted just before a reset is lost";
  if (c.steps_back > 0) {
    text += fmt::format("; {}, together {}, left out",
                        counted_as(c.steps_back, "step back", "steps back"),
                        in_unit(c.stepped_back, "Wh", decimals));
  }
  if (!n.counter_less_integral) return text;
  const Estimate<Ratio>& d = *n.counter_less_integral;
  const double half = half_width_of(d.standard_u.si(), d.degrees_of_freedom, {});
  const int of_share = decimals_for(std::max(100.0 * d.standard_u.si(), 1e-3));
  const double percents = 100.0 * d.value.si();
  return fmt::format("{}. Over the same time that is {} % {} than the integral of the power, {} "
                     "than the steps of both, and what the power did between the rows, make: {} % "
                     "(95 %). One meter makes both, so its own error is in neither",
                     text, fixed(std::abs(percents), of_share), percents < 0.0 ? "less" : "more",
                     std::abs(d.value.si()) > half ? "more" : "no more",
                     fixed(100.0 * half, of_share));
}

std::string clipping_sentence(const LogClipping& c, std::string_view whose) {
  return fmt::format("from {} on the power{} stays at {} ({}, up to {}): the load or its tracker "
                     "sets it, not the panel; no maximum power was read there",
                     in_unit(c.from, "W/m2", 0), whose, in_unit(c.level, "W", 1),
                     counted_rows(c.rows), in_unit(c.to, "W/m2", 0));
}

std::string ratio_sentence(const LogNumber<Ratio>& ratio, const RatioMean& mean) {
  const double value = ratio.estimate.value.si();
  const double half = ratio.half_width().si();
  const int decimals = decimals_for(ratio.estimate.standard_u.si());
  const double meters = std::sqrt(variance_share(ratio.budget, "meter/"));
  return fmt::format(
      "the second panel gives {} of the first, 95 % interval {} to {}, over {} of a "
      "minute. Clouds cancel, the errors of the two meters do not: by themselves "
      "they make ±\u00a0{} of it",
      fixed(value, decimals), fixed(value - half, decimals), fixed(value + half, decimals),
      counted_as(mean.windows.count, "window", "windows"), fixed(meters * half, decimals));
}

std::string clock_sentence(const ClockOffset& o, Time used) {
  const std::string searched =
      fmt::format("searched up to {} both ways", duration_text(o.searched.si()));
  const std::string taken =
      fmt::format("{} s were added to the second log's stamps", plain_number(used.si(), 4));
  if (!o.offset) {
    return fmt::format("no offset between the two clocks was found ({}): {}; {}", searched,
                       o.why_not, taken);
  }
  const int decimals = std::min(3, decimals_for(o.standard_u.si()));
  return fmt::format("the second log's clock is {} s {} the first's, standard uncertainty {} s "
                     "(correlation of the changes of power {}, at the next best offset {}; {}); {}",
                     fixed(std::abs(o.offset->si()), decimals),
                     o.offset->si() < 0.0 ? "ahead of" : "behind",
                     fixed(o.standard_u.si(), decimals), fixed(o.correlation, 2),
                     fixed(o.next_best, 2), searched, taken);
}

std::string cut_sentence(const LogCut& cut, std::size_t stretches) {
  const std::string found =
      counted_as(static_cast<std::int64_t>(stretches), "stretch", "stretches");
  switch (cut.kind) {
  case LogCut::Kind::whole:
    return "The log was measured as a whole.";
  case LogCut::Kind::times:
    return found + ", cut by the times that were given.";
  case LogCut::Kind::markers:
    return found + ", cut by the markers in the log.";
  case LogCut::Kind::plateaus:
    return fmt::format("{}, cut where the load went on and off: each at least {} of steady time, "
                       "at least {} apart. The log cannot tell whether the panel was put up anew; "
                       "only stretches between which it was are set-ups.",
                       found, duration_text(cut.plateaus.shortest.si()),
                       duration_text(cut.plateaus.shortest_off.si()));
  }
  fail_contract("unknown cut");
}

std::string why_not_normalised(const ReadingsAnswer& a) {
  if (a.shape.column(LogRole::irradiance) == nullptr) return "the log has no irradiance";
  if (a.shape.column(LogRole::temperature) == nullptr)
    return "the log has no temperature of the panel";
  if (!a.question.rules.normalise) {
    return "it takes the panel's temperature coefficient: name the panel file (--panel)";
  }
  return fmt::format("no row counts of {} and more with the load on",
                     in_unit(a.question.rules.normalise->least_irradiance, "W/m2", 0));
}

std::vector<const Caution*> log_cautions(const LogFindings& findings) {
  CautionFacts facts;
  facts.panel_present = true;
  const ColumnSums& t = findings.whole.temperature;
  if (t.count > 0) facts.hottest_panel = TemperaturePoint::from_kelvin(t.most);
  // A log holds no insulation test.
  facts.high_voltage_test = false;
  facts.published = true;
  return cautions_for(facts);
}

}  // namespace hailwright
