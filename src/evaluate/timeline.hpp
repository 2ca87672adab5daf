#pragma once

#include <cstddef>
#include <optional>
#include <tuple>
#include <vector>

#include "hailwright/evaluate/stress_verdict.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// How much had been done to the panel at a moment: so many events were over, so many begun.
struct Standing {
  std::size_t over = 0, begun = 0;
};

/// What was done to the panel of a record, in order: stresses before the hail, the series of which
/// there are shots, stresses after the hail. Looks and stages of readings lie between.
class Timeline {
public:
  explicit Timeline(const Record& record);

  [[nodiscard]] const std::vector<PanelEvent>& events() const { return events_; }
  [[nodiscard]] std::size_t size() const { return events_.size(); }
  /// Where an event stands; `size()` when it is none of these.
  [[nodiscard]] std::size_t place_of(PanelEvent event) const;
  /// How many stresses came before the hail; all of them where there was no hail.
  [[nodiscard]] std::size_t before_hail() const;
  [[nodiscard]] bool has_hail() const;

  [[nodiscard]] Standing at(const Look& look) const;
  [[nodiscard]] std::size_t at(StageId stage) const;

  /// The events from one standing to another.
  [[nodiscard]] std::vector<PanelEvent> between(std::size_t first, std::size_t end) const;
  /// What was done since the look before this one, or since the start: what it can show.
  [[nodiscard]] std::vector<PanelEvent> since_look_before(std::size_t look) const;
  /// A stress is among them.
  [[nodiscard]] bool with_a_stress(std::size_t look) const;
  /// The stresses among events: indices into Record::stresses.
  static std::vector<std::size_t> stresses_of(const std::vector<PanelEvent>& events);

  /// Sorts looks by the time at which they were taken.
  [[nodiscard]] std::tuple<int, std::size_t, int> order_of(const Look& look) const;

  /// The last stage with readings when so much had been done, or before.
  [[nodiscard]] StageId last_stage_by(std::size_t standing) const;
  /// The first stage with readings when so much had been done, or later.
  [[nodiscard]] std::optional<StageId> first_stage_from(std::size_t standing) const;

private:
  [[nodiscard]] std::size_t after_hail_series(std::size_t series) const;
  /// How much had been done after the last time that this stress of the protocol was done.
  [[nodiscard]] std::size_t after_stress(std::size_t planned) const;

  const Record& record_;
  std::vector<PanelEvent> events_;
};

}  // namespace hailwright
