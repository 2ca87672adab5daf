#include "input/table_setups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "hailwright/core/quantity_text.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

namespace {

// As many as a protocol can plan for one stage.
constexpr int last_setup_number = 1000;

/// The name with single blanks, as names are compared.
std::string single_blanks(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\t';
    if (!blank) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

/// What is left of `text` after `word` and a blank; nullopt when `text` begins otherwise.
std::optional<std::string_view> after_word(std::string_view text, std::string_view word) {
  if (text.substr(0, word.size()) != word) return std::nullopt;
  text.remove_prefix(word.size());
  if (text.empty()) return text;
  if (text.front() != ' ') return std::nullopt;
  return text.substr(1);
}

struct StageText {
  StageId stage;
  std::string_view number;
};

std::optional<StageText> split_stage(std::string_view name, const Protocol& protocol) {
  if (const auto rest = after_word(name, "before")) return StageText{{StageKind::before, 0}, *rest};
  if (const auto rest = after_word(name, "baseline")) {
    return StageText{{StageKind::baseline, 0}, *rest};
  }
  if (const auto rest = after_word(name, "later")) return StageText{{StageKind::later, 0}, *rest};
  const auto rest = after_word(name, "after");
  if (!rest) return std::nullopt;
  StageText found{{StageKind::after, 0}, *rest};
  std::size_t longest = 0;
  const auto try_name = [&](const std::string& written, StageId stage) {
    const std::string after = single_blanks(written);
    const auto number = after_word(*rest, after);
    if (!number || after.size() <= longest) return;
    longest = after.size();
    found = {stage, *number};
  };
  for (std::size_t i = 0; i < protocol.series.size(); ++i)
    try_name(protocol.series[i].name, {StageKind::after_series, i});
  for (std::size_t i = 0; i < protocol.stresses.size(); ++i)
    try_name(protocol.stresses[i].name, {StageKind::after_stress, i});
  return found;
}

/// What the stage comes after has in the protocol: "series" or "stress", and its name; empty for
/// other stages.
std::pair<std::string_view, std::string> named_after(StageId stage, const Protocol& protocol) {
  if (stage.kind == StageKind::after_series) return {"series", protocol.series[stage.series].name};
  if (stage.kind == StageKind::after_stress)
    return {"stress", protocol.stresses[stage.series].name};
  return {};
}

/// The known name with the number that was written, where one was: "before 2" of "befor 2".
std::string with_number_of(std::string_view written, const std::string& known) {
  const std::size_t blank = written.rfind(' ');
  if (blank == std::string_view::npos) return known;
  const std::string_view number = written.substr(blank + 1);
  const TextResult<int> read = read_count(number);
  if (!read.value || *read.value < 1 || *read.value > last_setup_number) return known;
  return known.substr(0, known.rfind(' ') + 1) + std::string(number);
}

std::vector<std::string> setup_hints(std::string_view name, const Protocol& protocol) {
  std::vector<std::string> known{"before 1", "after 1", "baseline 1", "later 1"};
  std::string list;
  const auto add = [&](const std::string& after) {
    known.push_back(fmt::format("after {} 1", after));
    list += fmt::format(", after {} 1", after);
  };
  for (const SeriesPlan& series : protocol.series)
    add(series.name);
  for (const StressPlan& stress : protocol.stresses)
    add(stress.name);
  if (const auto near = nearest_word(name, known)) {
    return {fmt::format("did you mean \"{}\"?", with_number_of(name, *near))};
  }
  return {"a set-up is a stage and a number: before 1, after 1" + list + ", baseline 1, later 1"};
}

}  // namespace

std::optional<std::pair<StageId, int>> read_setup_name(std::string_view name, SourceSpan origin,
                                                       const Protocol& protocol,
                                                       Diagnostics& notes) {
  const std::string plain = single_blanks(name);
  const auto stage = split_stage(plain, protocol);
  int number = 1;
  bool understood = stage.has_value();
  if (understood && !stage->number.empty()) {
    const TextResult<int> read = read_count(stage->number);
    understood = read.value && *read.value >= 1 && *read.value <= last_setup_number;
    if (understood) number = *read.value;
  }
  if (!understood) {
    const bool numbered = stage && read_count(stage->number).value.has_value();
    notes.error("T25", origin, fmt::format("{} is not the name of a set-up", shown(name)),
                numbered
                    ? std::vector{fmt::format("set-ups are numbered from 1 to {} in each stage",
                                              last_setup_number)}
                    : setup_hints(plain, protocol));
    return std::nullopt;
  }
  // "after 3" where a series is called "3": the longest name would win silently.
  const auto [what, after] = named_after(stage->stage, protocol);
  const bool could_be_number =
      stage->number.empty() && read_count(single_blanks(after)).value.has_value();
  if (could_be_number) {
    notes.error("T25", origin,
                fmt::format("{} can mean a set-up after all series, or one after the {} \"{}\"",
                            shown(name), what, after),
                {fmt::format("for the {} write  {} 1", what, plain),
                 fmt::format("or give the {} a name with a letter in the protocol", what)});
    return std::nullopt;
  }
  return std::pair{stage->stage, number};
}

void note_time(SetupRows& rows, const Moment& moment, const std::string& name, Diagnostics& notes) {
  if (!rows.begin) rows.begin = moment;
  if (rows.end && moment.minute < rows.end->minute) {
    report_time_back(*rows.end, moment, fmt::format("set-up {}", shown(name)),
                     {"rows of a set-up stand in the order in which they were read",
                      "a reading of another set-up needs the name of that set-up"},
                     notes);
    return;
  }
  rows.end = moment;
}

namespace {

void check_both_panels(const Setup& setup, const SetupRows& rows, const TableLabels& labels,
                       Diagnostics& notes) {
  for (const Role role : {Role::struck, Role::control}) {
    if (rows.seen[static_cast<std::size_t>(role)]) continue;
    const std::string& label = role == Role::struck ? labels.struck : labels.control;
    notes.error(
        "T30", *rows.first_row,
        fmt::format("set-up {} has no reading of panel {}", shown(setup.name), shown(label)),
        {"a control-panel set-up is both panels put up anew and read together",
         "keep a reading that does not count, and say why in the column  skip"});
  }
}

bool redone_whole(const Setup& setup) {
  return setup.redone && std::all_of(all_redone.begin(), all_redone.end(), [&](Redone step) {
           return std::find(setup.redone->begin(), setup.redone->end(), step) !=
                  setup.redone->end();
         });
}

std::string span_text(const SetupRows& rows) {
  return fmt::format("{} to {}", time_text(rows.begin->minute), time_text(rows.end->minute));
}

/// One panel cannot stand in two set-ups at once, and not be put up anew in a minute.
class TimeTable {
public:
  TimeTable(const std::vector<Setup>& setups, const std::vector<SetupRows>& rows,
            Diagnostics& notes)
      : setups_(setups), rows_(rows), notes_(notes) {
    for (std::size_t i = 0; i < setups.size(); ++i) {
      if (rows[i].begin && rows[i].end) timed_.push_back(i);
    }
    std::stable_sort(timed_.begin(), timed_.end(), [&](std::size_t a, std::size_t b) {
      return std::tie(setups_[a].date, rows_[a].begin->minute) <
             std::tie(setups_[b].date, rows_[b].begin->minute);
    });
  }

  void check() {
    check_order();
    for (std::size_t k = 1; k < timed_.size(); ++k) {
      const std::size_t earlier = timed_[k - 1];
      const std::size_t later = timed_[k];
      if (setups_[earlier].date != setups_[later].date) continue;
      const int gap = rows_[later].begin->minute - rows_[earlier].end->minute;
      if (gap < 0) report_overlap(earlier, later);
      const bool one_stage = setups_[earlier].stage == setups_[later].stage;
      if (gap >= 0 && gap < shortest_min && one_stage && !redone_whole(setups_[later])) {
        report_close(earlier, later, gap);
      }
    }
  }

private:
  // Taking a panel down, putting it up, aiming and plugging it in takes longer [ours].
  static constexpr int shortest_min = 5;

  static bool is_before(const Setup& setup) {
    return setup.stage.kind == StageKind::before || setup.stage.kind == StageKind::baseline;
  }
  static bool is_after(const Setup& setup) {
    return setup.stage.kind == StageKind::after_series || setup.stage.kind == StageKind::after;
  }

  /// The shots lie between. Clocks of logs are compared where their zones are known.
  void check_order() {
    std::optional<std::size_t> after;  ///< the first one behind the shots of this day
    for (const std::size_t i : timed_) {
      if (after && setups_[*after].date != setups_[i].date) after.reset();
      if (rows_[i].from_log) continue;
      if (!after && is_after(setups_[i])) after = i;
      if (after && is_before(setups_[i])) report_order(*after, i);
    }
  }

  void report_order(std::size_t after, std::size_t before) {
    notes_
        .error(
            "T33", rows_[before].begin->origin,
            fmt::format("set-up {} ({}) is read later than {} ({}): the shots lie between the two",
                        shown(setups_[before].name), span_text(rows_[before]),
                        shown(setups_[after].name), span_text(rows_[after])),
            {"check the set-up and the time of these rows",
             fmt::format("if one was another day, give the record  setups: [{{name: {}, date: "
                         "...}}]",
                         setups_[after].name)})
        .related.push_back({rows_[after].begin->origin, "the other begins here"});
  }

  void report_overlap(std::size_t earlier, std::size_t later) {
    const std::string& name = setups_[later].name;
    std::vector<std::string> hints{"check the set-up and the time of these rows"};
    if (!rows_[later].from_log) {
      hints.push_back(fmt::format(
          "if it was another day, give the record  setups: [{{name: {}, date: ...}}]", name));
    }
    notes_
        .error("T28", rows_[later].begin->origin,
               fmt::format("set-ups {} ({}) and {} ({}) overlap in time",
                           shown(setups_[earlier].name), span_text(rows_[earlier]), shown(name),
                           span_text(rows_[later])),
               std::move(hints))
        .related.push_back({rows_[earlier].end->origin, "the earlier set-up ends here"});
  }

  void report_close(std::size_t earlier, std::size_t later, int gap) {
    const std::string& name = setups_[later].name;
    notes_
        .warning("T29", rows_[later].begin->origin,
                 fmt::format("set-up {} begins {} min after {} ended: a set-up is the panel taken "
                             "down, put up, aimed and plugged in again; readings in one go are one "
                             "set-up",
                             shown(name), gap, shown(setups_[earlier].name)),
                 {fmt::format("if all of it was done again, give the record  setups: [{{name: {}, "
                              "remounted: yes}}]",
                              name),
                  "if not, give both the same set-up name"})
        .related.push_back({rows_[earlier].end->origin, "the earlier set-up ends here"});
  }

  const std::vector<Setup>& setups_;
  const std::vector<SetupRows>& rows_;
  Diagnostics& notes_;
  std::vector<std::size_t> timed_;
};

void check_date(const Setup& setup, const SetupRows& rows, const std::string& day,
                Diagnostics& notes) {
  const bool before =
      setup.stage.kind == StageKind::before || setup.stage.kind == StageKind::baseline;
  // A stress has a day of its own, which its reader looks at.
  const bool of_this_day = setup.stage.kind != StageKind::after_stress;
  if (of_this_day && !setup.date.empty() && (before ? setup.date > day : setup.date < day)) {
    notes.error("T33", *rows.first_row,
                fmt::format("set-up {} is dated {}, {} the shots of {}", shown(setup.name),
                            setup.date, before ? "after" : "before", day),
                {rows.from_log
                     ? "check the clock and the time zone of the log, and the day of the record"
                     : "check the date under  setups:  in the record, and that of its day"});
  }
}

void check_later(const Setup& setup, const SetupRows& rows, const std::string& day,
                 Diagnostics& notes) {
  if (setup.stage.kind != StageKind::later || setup.date != day) return;
  notes.warning("T31", *rows.first_row,
                fmt::format("set-up {} has the date of the test, {}", shown(setup.name), day),
                {rows.from_log ? "a set-up of the day of the shots is called after 1, after 2"
                               : fmt::format("give the record  setups: [{{name: {}, date: ...}}]",
                                             setup.name)});
}

}  // namespace

void check_setups(const std::vector<Setup>& setups, const std::vector<SetupRows>& rows,
                  const TableLabels& labels, const std::string& day, Diagnostics& notes) {
  const bool logs =
      std::any_of(rows.begin(), rows.end(), [](const SetupRows& r) { return r.from_log; });
  for (std::size_t i = 0; i < setups.size(); ++i) {
    const Setup& setup = setups[i];
    if (!rows[i].first_row) {
      if (rows[i].log_failed) continue;
      notes.warning("T31", setup.origin,
                    fmt::format("set-up {} has no reading in the table{}", shown(setup.name),
                                logs ? " and in no log" : ""),
                    {"check its name against the column  setup  of the readings"});
      continue;
    }
    check_date(setup, rows[i], day, notes);
    if (labels.control_expected) check_both_panels(setup, rows[i], labels, notes);
    check_later(setup, rows[i], day, notes);
  }
  TimeTable(setups, rows, notes).check();
}

}  // namespace hailwright::input
