#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Every default that was taken with what it adds and the line that replaces it, largest first.
void append_assumed(Document& out, const Assessment& assessment);

/// The readings that do not count, each with its reason. Lines of files are named after `sources`.
std::vector<std::string> skipped_lines(const Test& test, const SourceSet& sources);

/// The text, or that nothing was stated.
std::string or_unstated(const std::string& text);

/// A label with a line each; nothing for no lines.
void add_fact(Facts& facts, std::string label, std::vector<std::string> lines);

}  // namespace hailwright
