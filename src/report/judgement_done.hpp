#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"
#include "report/audience.hpp"

namespace hailwright {

/// Every default that was taken with what it adds, largest first; for a reviewer with the line that
/// replaces it.
void append_assumed(Document& out, const Assessment& assessment, Audience audience);

/// The readings that do not count, each with its reason; those of logs by set-up and reason. Lines
/// of files are named after `sources`.
std::vector<std::string> skipped_lines(const Test& test, const SourceSet& sources);

/// The text, or that nothing was stated.
std::string or_unstated(const std::string& text);

/// Who bought the struck panel: by the record, else by the file of the panel.
std::string bought_by_text(const Record& record);

/// A label with a line each; nothing for no lines.
void add_fact(Facts& facts, std::string label, std::vector<std::string> lines);

}  // namespace hailwright
