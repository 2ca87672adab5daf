#pragma once

#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/record.hpp"
#include "input/document.hpp"

namespace hailwright::input {

/// Reads a document of the kind record with all the files that it names: what could be read.
/// `path` is the record's own, from whose folder the others are taken.
/// @param open_log  for its logs; empty: they are fetched with `load`
Test read_record(const Document& document, const std::string& path, const Loader& load,
                 SourceSet& sources, Diagnostics& notes, const LogOpener& open_log = {});

/// Every mapping of a record with its keys, for the format page.
const std::vector<KeyList>& record_keys();

}  // namespace hailwright::input
