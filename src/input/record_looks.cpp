#include "input/record_looks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <tuple>
#include <utility>

#include "core/quoted.hpp"

namespace hailwright::input {

namespace {

constexpr Range share_range{0.0, 1.0, "from 0 % to 100 %"};
constexpr std::string_view after_throw = "after throw ";

std::vector<std::string> finding_words() {
  std::vector<std::string> words;
  for (const FindingKind& kind : finding_kinds())
    words.emplace_back(kind.word);
  return words;
}

/// {cell crack: place 14, share: 12 %, photo: a14.jpg}
std::optional<Finding> read_finding(const Node& node, Diagnostics& notes) {
  if (node.kind != NodeKind::map) {
    if (node.kind != NodeKind::broken) {
      notes.error("K05", node.span,
                  fmt::format("a thing seen is {}, found {}", name(NodeKind::map), name(node.kind)),
                  {"write what and where, as in  {scuff: place 14}"});
    }
    return std::nullopt;
  }
  Finding finding;
  finding.origin = node.span;
  const Entry* seen = nullptr;
  for (const Entry& entry : node.entries) {
    const std::string what = fmt::format("'{}'", entry.key);
    if (entry.key == "share") {
      const auto share = read_amount_of(entry.value, what, Measure::ratio, share_range, notes);
      if (share) finding.share = Ratio::from_si(share->si);
    } else if (entry.key == "photo") {
      finding.photo = read_text(entry.value, what, notes).value_or("");
    } else if (seen != nullptr) {
      notes
          .error("C15", entry.key_span, "two things seen stand in one entry",
                 {"give each an entry of its own: [{scuff: place 14}, {dent: place 3}]"})
          .related.push_back({seen->key_span, "the other one"});
    } else {
      seen = &entry;
    }
  }
  if (seen == nullptr) {
    notes.error("K02", node.span, "this entry does not say what was seen",
                {"write what and where, as in  {scuff: place 14}"});
    return std::nullopt;
  }
  finding.origin = seen->key_span;
  finding.where = read_text(seen->value, fmt::format("'{}'", seen->key), notes).value_or("");
  finding.kind = find_finding_kind(seen->key);
  if (finding.kind != nullptr) return finding;
  report_unknown(
      "K16", seen->key_span,
      fmt::format("{} is not in the list of things seen", hailwright::detail::quoted(seen->key)),
      seen->key, finding_words(), notes);
  return std::nullopt;
}

class LooksReader {
public:
  LooksReader(const Protocol& protocol, const std::vector<Shot>* shots, Diagnostics& notes)
      : series_(protocol.series), stresses_(protocol.stresses), shots_(shots), notes_(notes) {}

  Look read(const Node& node) {
    const MapReader map(node, look_keys, node.span, notes_);
    Look look;
    look.origin = node.span;
    if (const Entry* when = map.require("when", "write start, after and a series, after throw and "
                                                "its number, or end"))
      read_when(*when, look);
    look.date = map.date("date");
    if (const Entry* saw =
            map.require("saw", "write what was seen; if it was nothing, write  saw: nothing"))
      read_saw(*saw, look);
    look.photos = map.texts("photos");
    return look;
  }

private:
  void read_when(const Entry& entry, Look& look) {
    const auto text = read_text(entry.value, "'when'", notes_);
    if (!text) return;
    look.origin = entry.value.span;
    if (series_.empty() && stresses_.empty()) return;
    std::vector<std::string> known = moments();
    const auto found = std::find(known.begin(), known.end(), *text);
    if (found == known.end() && text->starts_with(after_throw) && !series_.empty()) {
      read_throw(entry.value, text->substr(after_throw.size()), look);
      return;
    }
    if (found == known.end()) {
      if (!series_.empty()) known.push_back(std::string(after_throw) + "1");
      report_unknown("K06", entry.value.span,
                     fmt::format("'when' cannot be {}", hailwright::detail::quoted(*text)), *text,
                     known, notes_);
      return;
    }
    const auto index = static_cast<std::size_t>(found - known.begin());
    look.start = index == 0;
    if (index <= 1) {
      look.after = series_.empty() ? 0 : series_.size() - 1;
    } else if (index - 2 < series_.size()) {
      look.after = index - 2;
    } else {
      look.after_stress = index - 2 - series_.size();
    }
    note_moment(look);
  }

  [[nodiscard]] std::vector<std::string> moments() const {
    std::vector<std::string> known{"start", "end"};
    for (const SeriesPlan& series : series_)
      known.push_back("after " + series.name);
    for (const StressPlan& stress : stresses_)
      known.push_back("after " + stress.name);
    return known;
  }

  /// "after throw 7": throws are counted through all series, misses and broken balls too.
  void read_throw(const Node& node, std::string_view number, Look& look) {
    const TextResult<int> read = read_count(number);
    if (!read.value) {
      notes_.error("K06", node.span,
                   fmt::format("'when' cannot be {}", hailwright::detail::quoted(node.text)),
                   {"write the number of the throw, counted from 1 over all rows of the shots that "
                    "are of this panel:  after throw 7"});
      return;
    }
    if (shots_ == nullptr) return;
    const auto shot = std::find_if(shots_->begin(), shots_->end(),
                                   [&](const Shot& s) { return s.number == *read.value; });
    if (shot == shots_->end()) {
      notes_.error("C35", node.span,
                   fmt::format("there is no throw {}: the table of shots has {} of this panel",
                               *read.value, shots_->size()),
                   {"throws are counted from 1 over all series, misses and broken balls too"});
      return;
    }
    look.after = shot->series;
    look.after_throw = shot->number;
    note_moment(look);
  }

  /// Each moment has one look.
  void note_moment(const Look& look) {
    const auto same = std::find_if(seen_.begin(), seen_.end(), [&](const Look& other) {
      return std::tie(other.start, other.after, other.after_throw, other.after_stress) ==
             std::tie(look.start, look.after, look.after_throw, look.after_stress);
    });
    if (same == seen_.end()) {
      seen_.push_back(look);
      return;
    }
    notes_.error("C05", look.origin, "a second look at the same moment", {"join the two"})
        .related.push_back({same->origin, "the first one"});
  }

  void read_saw(const Entry& entry, Look& look) {
    const Node& saw = entry.value;
    if (saw.kind == NodeKind::broken || (saw.kind == NodeKind::text && saw.text == "nothing"))
      return;
    if (saw.kind != NodeKind::list || saw.items.empty()) {
      notes_.error("K17", saw.span, "'saw' is the word nothing, or a list of what was seen",
                   {"write it as in  saw: [{scuff: place 14, photo: a14.jpg}]"});
      return;
    }
    for (const Node& item : saw.items) {
      if (auto finding = read_finding(item, notes_)) look.saw.push_back(std::move(*finding));
    }
  }

  const std::vector<SeriesPlan>& series_;
  const std::vector<StressPlan>& stresses_;
  const std::vector<Shot>* shots_;
  Diagnostics& notes_;
  std::vector<Look> seen_;  ///< one for each moment
};

/// Holds the days of looks against the day of the shots and against each other.
class LookDays {
public:
  LookDays(const Record& record, const Protocol& protocol, Diagnostics& notes)
      : record_(record), protocol_(protocol), notes_(notes) {}

  void check() {
    std::vector<const Look*> looks;
    for (const Look& look : record_.looks) {
      const bool fine = record_.shots.empty() ? against_stresses(look) : against_shots(look);
      if (fine && !look.start && !look.after_stress) looks.push_back(&look);
    }
    std::stable_sort(looks.begin(), looks.end(),
                     [](const Look* a, const Look* b) { return moment(*a) < moment(*b); });
    check_order(looks);
  }

private:
  /// Series, and throw among its throws.
  static std::pair<std::size_t, int> moment(const Look& look) {
    return {look.after, look.after_throw.value_or(std::numeric_limits<int>::max())};
  }

  /// Without a date it is of the day of the test; there is none to go by where nothing was thrown.
  [[nodiscard]] const std::string& day(const Look& look) const {
    return look.date.empty() && !record_.shots.empty() ? record_.date : look.date;
  }

  [[nodiscard]] std::string name(const Look& look) const {
    if (look.start) return "the look at the start";
    if (!look.after_stress && protocol_.series.empty()) return "the look at the end";
    if (look.after_throw) return fmt::format("the look after throw {}", *look.after_throw);
    const std::string& after = look.after_stress ? protocol_.stresses.at(*look.after_stress).name
                                                 : protocol_.series.at(look.after).name;
    return fmt::format("the look after {}", hailwright::detail::quoted(after));
  }

  /// What comes before the shots is not dated after them, nor the other way round. What comes after
  /// a stress that followed them is held against that.
  bool against_shots(const Look& look) {
    const bool before = look.start || follows_stress_before_shots(record_, look.after_stress);
    if (look.date.empty() || record_.date.empty() || (look.after_stress && !before)) return true;
    if (before ? look.date <= record_.date : look.date >= record_.date) return true;
    notes_.error("T33", look.origin,
                 fmt::format("{} is dated {}, {} the shots of {}", name(look), look.date,
                             before ? "after" : "before", record_.date),
                 {"check its date, and that of the record's day"});
    return false;
  }

  /// Where nothing was thrown, the look at the end comes after all else that was done.
  bool against_stresses(const Look& look) {
    if (look.start || look.after_stress || look.date.empty()) return true;
    const auto day_of = [&](const StressDone& done) {
      return done.date.empty() ? record_.date : done.date;
    };
    const auto later =
        std::find_if(record_.stresses.begin(), record_.stresses.end(),
                     [&](const StressDone& done) { return day_of(done) > look.date; });
    if (later == record_.stresses.end()) return true;
    const std::string& stress = protocol_.stresses.at(later->stress).name;
    notes_
        .error("T33", look.origin,
               fmt::format("{} is dated {}, before {} was done on {}", name(look), look.date,
                           hailwright::detail::quoted(stress), day_of(*later)),
               {"check both dates"})
        .related.push_back({later->origin, "done here"});
    return false;
  }

  /// Of looks in the order of the throws, none is dated before an earlier one.
  void check_order(const std::vector<const Look*>& looks) {
    const Look* last = nullptr;
    for (const Look* look : looks) {
      if (day(*look).empty()) continue;
      if (last == nullptr || day(*look) >= day(*last)) {
        last = look;
        continue;
      }
      const std::string_view dated =
          look->date.empty() ? "is of the day of the shots," : "is dated";
      notes_
          .error("T33", look->origin,
                 fmt::format("{} {} {}, and {}, which comes first, is dated {}", name(*look), dated,
                             day(*look), name(*last), day(*last)),
                 {"check the dates of both; a look without one is of the record's day"})
          .related.push_back({last->origin, "the earlier look"});
    }
  }

  const Record& record_;
  const Protocol& protocol_;
  Diagnostics& notes_;
};

}  // namespace

bool follows_stress_before_shots(const Record& record, std::optional<std::size_t> stress) {
  if (!stress || record.shots.empty()) return false;
  return std::any_of(record.stresses.begin(), record.stresses.end(), [&](const StressDone& done) {
    return done.stress == *stress && !done.after_hail;
  });
}

std::vector<Look> read_looks(const std::vector<Node>& items, const Protocol& protocol,
                             const std::vector<Shot>* shots, Diagnostics& notes) {
  LooksReader reader(protocol, shots, notes);
  std::vector<Look> looks;
  for (const Node& item : items)
    looks.push_back(reader.read(item));
  return looks;
}

void check_look_days(const Record& record, const Protocol& protocol, Diagnostics& notes) {
  LookDays(record, protocol, notes).check();
}

}  // namespace hailwright::input
