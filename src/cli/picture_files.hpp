#pragma once

#include <vector>

#include "cli/output_files.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright::cli {

/// Adds the pictures of a document as SVG files named after their ids, in the order of the document
/// and each id once. A figure without a drawing has no file.
void add_pictures(std::vector<OutputFile>& files, const Document& document);

}  // namespace hailwright::cli
