#pragma once

#include <string>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Series by series: its word, what decided it, and what was delivered where the grade was not
/// reached. Lines of files are named after `sources`.
Facts verdict_facts(const Test& test, const Assessment& assessment, const SourceSet& sources);

/// Series by series: throws, places, energies, speeds, and why a hit does not count as at least at
/// the grade.
Facts delivery_facts(const Test& test, const Assessment& assessment);

/// What the hits of each series say about further hits on this panel.
void append_evidence_facts(Facts& facts, const Assessment& assessment, const Test& test);

/// "16 throws: 11 on a place, 1 elsewhere on the panel, 3 misses, 1 broke before it".
std::string throws_text(const SeriesDelivery& delivery);

/// "3 of 5 places struck with at least 6.55 J each (95 %)": what a series brought to its places,
/// and what is not known of it.
std::string struck_text(const SeriesDelivery& delivery);

/// Whether any ball reached the panel.
bool anything_struck(const Assessment& assessment);

/// "the energy of a freely falling hailstone of 25 to 30 mm, about quarter size": the range over
/// the named fits. Contract: an energy above 0.
std::string hailstone_text(Energy energy);

/// "25 to 30 mm, about quarter size". Contract: an energy above 0.
std::string hailstone_size_text(Energy energy);

/// "1.93 J", "12.3 J".
std::string joule_text(Energy energy);

/// A probability computed of a whole series, as whole per cent; its far ends as bounds.
std::string sure_text(double probability);

}  // namespace hailwright
