#pragma once

#include <limits>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "hailwright/model/record.hpp"

// Panels side by side (MEASUREMENT M15): what each came to, which of them differ, and which ranks
// that leaves open.

namespace hailwright {

/// What panels can be put in order by.
enum class LineUpQuantity {
  loss,            ///< least first; compared by the share of the power that is left
  power,           ///< measured before the shots, at 1000 W/m2 and 25 degC: most first
  share_of_rated,  ///< of that power: most first
  power_per_area,
  power_per_mass,
  price_per_watt,  ///< by the price, or its average: least first
  shading_loss     ///< least first; by the share that is left in the shade
};

/// An error of a number. The same key in two records is the same error: it was one instrument, by
/// its id, or one panel model.
struct LineUpError {
  std::string key;            ///< "meter/clamp meter 2/gain"; empty: the record's own error
  double contribution = 0.0;  ///< to the logarithm; signed
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::string input = {};  ///< id of its row in the budget: "meter/gain"
};

/// A number of one record by its logarithm. Of losses, that of the share which is left. Powers hold
/// what two panels read with the same instruments can differ by: beside the instruments the scatter
/// of the set-ups and the sky of the day; without knowledge of the scatter there is no number.
struct LineUpNumber {
  double log = 0.0;
  std::vector<LineUpError> errors;
  double standard_u = 0.0;  ///< of the logarithm
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// Something that must be the same in records that are ranked together.
struct LineUpTrait {
  std::string
      what;  ///< "series", "comparison", "limit", "stages"; by loss in the shade "shade" too
  std::string text;  ///< "IEC 61215 25 mm at 11 places; IEC 61215 35 mm at 5 places"
  friend bool operator==(const LineUpTrait&, const LineUpTrait&) = default;
};

/// One series with its word and what it aimed at; or another stress that was done, whose target is
/// its kind and which has no places.
struct LineUpWord {
  std::string series, target;
  Word word = Word::undecided;
  int places = 0, places_struck = 0;
  bool is_stress = false;
};

/// Why a record has no loss that could be ranked.
enum class LineUpGap { none, not_compared, obstacle, not_valid, not_deciding };

/// All that a line-up knows of one record, small: a line-up may hold thousands.
struct LineUpEntry {
  std::string path;   ///< of the record's file
  std::string title;  ///< of the record
  std::string date;
  std::string panel, serial, build, connector;
  std::optional<Power> rated;
  std::optional<Area> area;
  std::optional<Mass> weight;
  std::optional<Length> lead_length;
  std::optional<Money> price, lowest_price, highest_price;
  std::vector<LineUpWord> words;  ///< one a series, then stresses as done
  std::optional<std::size_t> hardest_withstood, mildest_damaged;  ///< indices into `words`
  std::vector<LineUpTrait> traits;
  LineUpGap gap = LineUpGap::none;
  std::string gap_text;              ///< of an obstacle: its subject
  std::optional<LossEstimate> loss;  ///< also where too little was measured to decide
  std::string stage;                 ///< that the loss is of: the last read
  std::optional<Ratio> limit, smallest_shown;
  std::optional<LossAnswers> answers;  ///< where `gap` is none
  std::optional<std::string> shade;    ///< in words, that `shading_loss` is of
  std::map<LineUpQuantity, LineUpNumber> numbers;
  std::vector<const Caution*> cautions;
};

/// @param path  as given, for messages and tables
LineUpEntry line_up_entry(const Test& test, const Assessment& assessment, std::string path);

/// Two entries held against each other.
struct LineUpDifference {
  std::size_t better = 0, worse = 0;  ///< indices into the entries, by their estimates
  double difference = 0.0;            ///< of the logarithms, never below zero
  double standard_u = 0.0;            ///< of it: what both share has cancelled
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  double p = 1.0;                ///< two-sided, by t; guarded as intervals of a loss are (M2)
  double p_adjusted = 1.0;       ///< over all pairs of the group; see `each_with_each`
  double low = 0.0, high = 0.0;  ///< simultaneous interval of `difference` after Bonferroni
  bool shown = false;            ///< p_adjusted <= 0.05; of prices, beyond their ranges too
};

/// Rank of an entry: from 1 + the number shown better to N - the number shown worse.
struct LineUpRank {
  std::size_t entry = 0;
  int first = 1, last = 1;
};

/// Records that are comparable, in order.
struct LineUpGroup {
  std::vector<LineUpTrait> traits;
  std::vector<LineUpRank> ranks;
  std::vector<LineUpDifference> differences;
  /// Up to 12 entries: each with each, p after Holm. More: neighbours in the order, and each with
  /// the best; which these are the results say, so p and intervals are those of Bonferroni over all
  /// N (N - 1) / 2 pairs.
  bool each_with_each = true;
};

/// A record that is listed and not ranked.
struct LineUpUnranked {
  std::size_t entry = 0;
  /// What differs from the largest group; empty where the number to rank by is missing, and where
  /// no other record has a number either.
  std::vector<LineUpTrait> differs;
  bool number_missing = false;
};

struct LineUp {
  LineUpQuantity order = LineUpQuantity::loss;
  std::vector<LineUpGroup> groups;  ///< of two or more, largest first
  std::vector<LineUpUnranked> unranked;
};

/// Groups, ranks and differences (MEASUREMENT M15). The same for any order of the entries but for
/// ties, which keep it. Errors that two records share, by their key, cancel as far as they act
/// alike on both. By price only records of the most frequent currency are ranked: to the others the
/// number is missing.
LineUp line_up(const std::vector<LineUpEntry>& entries, LineUpQuantity order);

/// Level below which an adjusted p counts as shown (M15).
inline constexpr double line_up_risk = 0.05;
inline constexpr std::size_t line_up_each_with_each = 12;

}  // namespace hailwright
