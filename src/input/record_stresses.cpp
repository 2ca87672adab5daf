#include "input/record_stresses.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "input/stress_values.hpp"

namespace hailwright::input {

namespace {

/// Keys of a kind that tell the same amount in another way: one way is typed, and whole.
struct TwoWays {
  std::string_view kind;
  std::vector<std::string_view> one, other;
};

const std::vector<TwoWays>& two_ways() {
  static const std::vector<TwoWays> all{{"cable pull", {"mass"}, {"force"}},
                                        {"bending", {"drum"}, {"arc", "angle"}}};
  return all;
}

class DoneReader {
public:
  DoneReader(const Protocol& protocol, Diagnostics& notes) : protocol_(protocol), notes_(notes) {}

  void read(const Node& node, std::vector<StressDone>& into) {
    const MapReader map(node, stress_done_keys, node.span, notes_);
    const Entry* name = map.require("name", "write the name that the protocol gives the stress");
    StressDone done;
    done.origin = name == nullptr ? node.span : name->value.span;
    done.date = map.date("date");
    done.after_hail = map.flag("after_hail").value_or(false);
    done.note = map.text("note");
    check_after_hail(map, done);
    if (name == nullptr || !find_stress(*name, done)) return;
    if (const Entry* entry =
            map.require("done", fmt::format("write what was done, as in  done: {{{}}}",
                                            examples(*protocol_.stresses[done.stress].kind))))
      read_done(*entry, done);
    check_once(done, into);
    into.push_back(std::move(done));
  }

private:
  static std::string examples(const StressKind& kind) {
    std::string text;
    for (const StressKey& key : kind.done) {
      if (key.required) text += (text.empty() ? "" : ", ") + example_of(key);
    }
    return text.empty() && !kind.done.empty() ? example_of(kind.done.front()) : text;
  }

  bool find_stress(const Entry& name, StressDone& done) {
    const auto text = read_text(name.value, "'name'", notes_);
    if (!text) return false;
    std::vector<std::string> known;
    for (const StressPlan& plan : protocol_.stresses)
      known.push_back(plan.name);
    const auto found = std::find(known.begin(), known.end(), *text);
    if (found == known.end()) {
      report_unknown(
          "K06", name.value.span,
          fmt::format("the protocol plans no stress called {}", hailwright::detail::quoted(*text)),
          *text, known, notes_);
      return false;
    }
    done.stress = static_cast<std::size_t>(found - known.begin());
    return true;
  }

  void read_done(const Entry& entry, StressDone& done) {
    const StressKind& kind = *protocol_.stresses[done.stress].kind;
    const MapReader map(entry.value, stress_key_lists(kind).done, entry.key_span, notes_);
    done.values = read_stress_values(map, kind.done, {});
    for (const TwoWays& ways : two_ways()) {
      if (ways.kind == kind.word) check_one_way(map, ways, entry.key_span);
    }
  }

  static std::string keys_text(const std::vector<std::string_view>& keys) {
    return fmt::format("'{}'", fmt::join(keys, "' and '"));
  }

  void check_one_way(const MapReader& map, const TwoWays& ways, SourceSpan done) {
    const auto typed = [&](std::string_view key) { return map.find(key) != nullptr; };
    const auto any = [&](const auto& keys) { return std::any_of(keys.begin(), keys.end(), typed); };
    const auto all = [&](const auto& keys) { return std::all_of(keys.begin(), keys.end(), typed); };
    const std::string wanted =
        fmt::format("write {}, or {}", keys_text(ways.one), keys_text(ways.other));
    if (any(ways.one) && any(ways.other)) {
      const auto second = std::find_if(ways.other.begin(), ways.other.end(), typed);
      notes_.error("C63", map.find(*second)->key_span,
                   fmt::format("the same amount is typed in two ways: {} and {}",
                               keys_text(ways.one), keys_text(ways.other)),
                   {wanted});
    } else if (!all(ways.one) && !all(ways.other) && map.usable()) {
      notes_.error("C63", done, "how strong it was is not typed", {wanted});
    }
  }

  void check_after_hail(const MapReader& map, const StressDone& done) {
    if (!done.after_hail || !protocol_.series.empty()) return;
    notes_.error("C48", map.at("after_hail"), "the protocol has no series of shots",
                 {"delete 'after_hail'"});
  }

  /// Power and looks after a stress belong to one doing of it.
  void check_once(const StressDone& done, const std::vector<StressDone>& others) {
    const auto same = std::find_if(others.begin(), others.end(), [&](const StressDone& other) {
      return other.stress == done.stress;
    });
    if (same == others.end()) return;
    notes_
        .error("C05", done.origin,
               fmt::format("{} stands here a second time",
                           hailwright::detail::quoted(protocol_.stresses[done.stress].name)),
               {"plan a second one in the protocol, with a name of its own"})
        .related.push_back({same->origin, "first given here"});
  }

  const Protocol& protocol_;
  Diagnostics& notes_;
};

/// What comes after a stress is held against it.
class StageChecker {
public:
  StageChecker(const Record& record, const Protocol& protocol, Diagnostics& notes)
      : record_(record), protocol_(protocol), notes_(notes) {}

  void check(std::size_t stress, const std::string& date, SourceSpan where, std::string_view what) {
    const std::string& name = protocol_.stresses[stress].name;
    const auto done = std::find_if(record_.stresses.begin(), record_.stresses.end(),
                                   [&](const StressDone& d) { return d.stress == stress; });
    if (done == record_.stresses.end()) {
      notes_.error(
          "C48", where,
          fmt::format("a {} after {}, which the record does not say was done", what,
                      hailwright::detail::quoted(name)),
          {fmt::format("add what was done:  stresses: [{{name: {}, done: {{...}}}}]", name)});
      return;
    }
    const std::string& day = done->date.empty() ? record_.date : done->date;
    if (date.empty() || day.empty() || date >= day) return;
    notes_
        .error("T33", where,
               fmt::format("a {} after {} is dated {}, before it was done on {}", what,
                           hailwright::detail::quoted(name), date, day),
               {"check both dates"})
        .related.push_back({done->origin, "done here"});
  }

private:
  const Record& record_;
  const Protocol& protocol_;
  Diagnostics& notes_;
};

/// Holds days against the order in which the record says that things were done.
class OrderChecker {
public:
  OrderChecker(const Record& record, const Protocol& protocol, Diagnostics& notes)
      : record_(record), protocol_(protocol), notes_(notes) {
    for (const bool after_hail : {false, true}) {
      for (const StressDone& done : record.stresses)
        if (done.after_hail == after_hail) order_.push_back(&done);
    }
  }

  void check() {
    for (std::size_t i = 0; i < order_.size(); ++i) {
      const StressDone& done = *order_[i];
      if (i > 0)
        not_before(done, day(order_[i - 1]->date), order_[i - 1]->origin, name(*order_[i - 1]));
      against_shots(done);
      for (const Setup& setup : record_.setups) {
        if (stands_before(setup.stage, i))
          not_before(done, setup.date, setup.origin, "a set-up before it");
      }
      for (const Look& look : record_.looks) {
        if (stands_before(look, i)) not_before(done, look.date, look.origin, "the look before it");
      }
    }
  }

private:
  [[nodiscard]] const std::string& day(const std::string& date) const {
    return date.empty() ? record_.date : date;
  }
  [[nodiscard]] std::string name(const StressDone& done) const {
    return hailwright::detail::quoted(protocol_.stresses[done.stress].name);
  }

  [[nodiscard]] bool is_earlier(std::size_t stress, std::size_t place) const {
    const auto end = order_.begin() + static_cast<std::ptrdiff_t>(place);
    return std::any_of(order_.begin(), end,
                       [&](const StressDone* done) { return done->stress == stress; });
  }
  [[nodiscard]] bool hail_is_earlier(std::size_t place) const {
    return order_[place]->after_hail && !record_.shots.empty();
  }
  [[nodiscard]] bool stands_before(StageId stage, std::size_t place) const {
    switch (stage.kind) {
    case StageKind::before:
      return true;
    case StageKind::after_series:
    case StageKind::after:
      return hail_is_earlier(place);
    case StageKind::after_stress:
      return is_earlier(stage.series, place);
    case StageKind::baseline:
    case StageKind::later:
      break;
    }
    return false;
  }
  [[nodiscard]] bool stands_before(const Look& look, std::size_t place) const {
    if (look.start) return true;
    return look.after_stress ? is_earlier(*look.after_stress, place) : hail_is_earlier(place);
  }

  void against_shots(const StressDone& done) {
    const std::string& when = day(done.date);
    if (record_.shots.empty() || when.empty() || record_.date.empty()) return;
    if (done.after_hail ? when >= record_.date : when <= record_.date) return;
    notes_.error(
        "C62", done.origin,
        fmt::format("{} is dated {}, {} the shots of {}", name(done), when,
                    done.after_hail ? "and 'after_hail' stands there, but before" : "after",
                    record_.date),
        {"check both dates, and 'after_hail'"});
  }

  void not_before(const StressDone& done, const std::string& date, SourceSpan where,
                  std::string_view what) {
    const std::string& when = day(done.date);
    if (date.empty() || when.empty() || date <= when) return;
    notes_
        .error("C62", done.origin,
               fmt::format("{} is dated {}, but {} is dated {}", name(done), when, what, date),
               {"check both dates, and the order of the list"})
        .related.push_back({where, "dated later here"});
  }

  const Record& record_;
  const Protocol& protocol_;
  Diagnostics& notes_;
  std::vector<const StressDone*> order_;
};

}  // namespace

std::vector<StressDone> read_stresses_done(const MapReader& record, const Protocol& protocol,
                                           bool fine, Diagnostics& notes) {
  std::vector<StressDone> all;
  const std::vector<Node>* items = record.list("stresses");
  if (items == nullptr || !fine) return all;
  if (protocol.stresses.empty()) {
    notes.error("C48", record.at("stresses"), "the protocol plans no stress other than hail",
                {"delete 'stresses', or plan it in the protocol:  stresses: [{kind: static load, "
                 "level: IEC 61215 2400 Pa}]"});
    return all;
  }
  if (items->empty()) {
    notes.error("K14", record.at("stresses"), "'stresses' is an empty list",
                {"write what was done, or delete the key"});
  }
  DoneReader reader(protocol, notes);
  for (const Node& item : *items)
    reader.read(item, all);
  return all;
}

void check_stages_of_stresses(const Record& record, const Protocol& protocol, Diagnostics& notes) {
  StageChecker checker(record, protocol, notes);
  for (const Setup& setup : record.setups) {
    if (setup.stage.kind != StageKind::after_stress) continue;
    checker.check(setup.stage.series, setup.date, setup.origin, "set-up");
  }
  for (const Look& look : record.looks) {
    if (look.after_stress) checker.check(*look.after_stress, look.date, look.origin, "look");
  }
  OrderChecker(record, protocol, notes).check();
}

std::vector<KeyList> stress_done_key_lists() {
  std::vector<KeyList> lists{stress_done_keys};
  for (const StressKeyLists& kind : stress_key_lists())
    lists.push_back(kind.done);
  return lists;
}

}  // namespace hailwright::input
