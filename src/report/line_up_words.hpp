#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"
#include "hailwright/report/line_up.hpp"

// Sentences of a line-up, and what is counted for them (MEASUREMENT M15, M18).

namespace hailwright::detail {

/// How a quantity is spoken of.
struct QuantityWords {
  LineUpQuantity quantity;
  std::string_view word;      ///< for --sort
  std::string_view name;      ///< "loss of power"
  std::string_view order;     ///< "least first"
  std::string_view verb;      ///< "lost less power than"
  std::string_view compared;  ///< what a difference is a ratio of: "what was left of the power"
};
const QuantityWords& words_of(LineUpQuantity quantity);

/// The cautions of all records, each once, most urgent first.
std::vector<const Caution*> line_up_cautions(const std::vector<LineUpEntry>& entries);

/// "A, B and C"; with semicolons where a title holds a comma itself.
std::string enumerated_titles(const std::vector<std::string>& titles);

/// A sentence for each panel, by its name and serial number, of which there are several records.
std::vector<std::string> same_panels(const std::vector<LineUpEntry>& entries);

/// "3", "2-4".
std::string rank_text(const LineUpRank& rank);

/// "p below 0.001", "p 0.073": one that was adjusted.
std::string adjusted_p_text(double p);

/// "In order by loss of power, least first."
std::string order_sentence(LineUpQuantity quantity);

/// What is said of each panel that was shown to differ from others, in the order of the group.
std::vector<std::string> shown_sentences(const LineUpView& view, const LineUpGroup& group);

/// The same of a group in which not each was held against each: by counts, and by neighbours.
std::vector<std::string> counted_sentences(const LineUpView& view, const LineUpGroup& group);

/// Which panels share a range of ranks, none of them told apart from another.
std::vector<std::string> shared_rank_sentences(const LineUpView& view, const LineUpGroup& group);

/// "A and B could not be told apart, nor could B and C; A and C could": at most three, and how
/// many more there are. None where not each was held against each.
std::vector<std::string> intransitive_sentences(const LineUpView& view, const LineUpGroup& group);

/// Why a record is not ranked.
std::string unranked_sentence(const LineUpView& view, const LineUpUnranked& unranked);

/// What would make the differences of a group narrower.
std::string sharpening_sentence(const LineUpView& view, const LineUpGroup& group);

}  // namespace hailwright::detail
