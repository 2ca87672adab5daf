#include "evaluate/timeline.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "evaluate/looks.hpp"

namespace hailwright {

namespace {

void add_stresses(const Record& record, bool after_hail, std::vector<PanelEvent>& events) {
  for (std::size_t i = 0; i < record.stresses.size(); ++i) {
    if (record.stresses[i].after_hail == after_hail) events.push_back({false, i});
  }
}

}  // namespace

Timeline::Timeline(const Record& record) : record_(record) {
  add_stresses(record, false, events_);
  std::set<std::size_t> thrown;
  for (const Shot& shot : record.shots)
    thrown.insert(shot.series);
  for (const std::size_t series : thrown)
    events_.push_back({true, series});
  add_stresses(record, true, events_);
}

std::size_t Timeline::place_of(PanelEvent event) const {
  const auto found = std::find(events_.begin(), events_.end(), event);
  return static_cast<std::size_t>(found - events_.begin());
}

std::size_t Timeline::before_hail() const {
  const auto first = std::find_if(events_.begin(), events_.end(),
                                  [](const PanelEvent& event) { return event.hail; });
  return static_cast<std::size_t>(first - events_.begin());
}

bool Timeline::has_hail() const {
  return before_hail() < size();
}

std::size_t Timeline::after_hail_series(std::size_t series) const {
  if (!has_hail()) return size();
  std::size_t over = 0;
  for (std::size_t i = 0; i < size(); ++i) {
    if (events_[i].hail ? events_[i].index <= series : i < before_hail()) over = i + 1;
  }
  return over;
}

std::size_t Timeline::after_stress(std::size_t planned) const {
  std::size_t over = 0;
  for (std::size_t i = 0; i < size(); ++i) {
    const PanelEvent& event = events_[i];
    if (!event.hail && record_.stresses[event.index].stress == planned) over = i + 1;
  }
  return over;
}

Standing Timeline::at(const Look& look) const {
  if (look.start) return {};
  if (look.after_stress) {
    const std::size_t over = after_stress(*look.after_stress);
    return {over, over};
  }
  const std::size_t end = after_hail_series(look.after);
  const std::size_t place = place_of({true, look.after});
  const bool whole = std::all_of(record_.shots.begin(), record_.shots.end(), [&](const Shot& shot) {
    return shot.series != look.after || moment_of(look).is_after(shot);
  });
  return {whole ? end : std::min(place, end), end};
}

std::size_t Timeline::at(StageId stage) const {
  constexpr std::size_t last = std::numeric_limits<std::size_t>::max();
  switch (stage.kind) {
  case StageKind::before:
  case StageKind::baseline:
    return 0;
  case StageKind::after_series:
    return after_hail_series(stage.series);
  case StageKind::after_stress:
    return after_stress(stage.series);
  case StageKind::after:
    return after_hail_series(last);
  case StageKind::later:
    break;
  }
  return size();
}

std::vector<PanelEvent> Timeline::between(std::size_t first, std::size_t end) const {
  if (first >= end) return {};
  return {events_.begin() + static_cast<std::ptrdiff_t>(first),
          events_.begin() + static_cast<std::ptrdiff_t>(end)};
}

std::vector<PanelEvent> Timeline::since_look_before(std::size_t look) const {
  const std::size_t end = at(record_.looks[look]).begun;
  std::size_t over = 0;
  for (const std::size_t i : looks_in_order(record_)) {
    if (i == look) break;
    // What a second look after the same event shows is of that event still.
    const std::size_t here = at(record_.looks[i]).over;
    if (here < end) over = here;
  }
  return between(over, end);
}

bool Timeline::with_a_stress(std::size_t look) const {
  return !stresses_of(since_look_before(look)).empty();
}

std::vector<std::size_t> Timeline::stresses_of(const std::vector<PanelEvent>& events) {
  std::vector<std::size_t> stresses;
  for (const PanelEvent& event : events) {
    if (!event.hail) stresses.push_back(event.index);
  }
  return stresses;
}

std::tuple<int, std::size_t, int> Timeline::order_of(const Look& look) const {
  enum Phase { at_start, before_hail_phase, hail, after_hail_phase };
  constexpr int whole = std::numeric_limits<int>::max();
  if (look.start) return {at_start, 0, 0};
  if (!look.after_stress) {
    // Where there was no hail but a stress, it is a look after everything.
    const bool last = !has_hail() && !events_.empty();
    return {last ? after_hail_phase : hail, look.after + (last ? size() : 0),
            look.after_throw.value_or(whole)};
  }
  const std::size_t over = after_stress(*look.after_stress);
  return {over <= before_hail() ? before_hail_phase : after_hail_phase, over, 0};
}

StageId Timeline::last_stage_by(std::size_t standing) const {
  StageId last{StageKind::before, 0};
  for (const Setup& setup : record_.setups) {
    if (setup.stage.kind == StageKind::baseline || setup.stage.kind == StageKind::later) continue;
    const std::size_t here = at(setup.stage);
    if (here <= standing && here > at(last)) last = setup.stage;
  }
  return last;
}

std::optional<StageId> Timeline::first_stage_from(std::size_t standing) const {
  std::optional<StageId> first;
  for (const Setup& setup : record_.setups) {
    if (setup.stage.kind == StageKind::baseline || setup.stage.kind == StageKind::later) continue;
    const std::size_t here = at(setup.stage);
    if (here < standing) continue;
    if (!first || here < at(*first)) first = setup.stage;
  }
  return first;
}

}  // namespace hailwright
