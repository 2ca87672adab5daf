#pragma once

#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/protocol.hpp"
#include "input/document.hpp"

namespace hailwright::input {

/// A protocol with what could be read of it, and which parts are free of errors: the tables of a
/// record need some of them, and are read as far as those parts allow.
struct ProtocolRead {
  Protocol protocol;
  bool series_fine = false;  ///< and the stresses: all that a stage can be named by
  bool speed_fine = false;
  bool measure_fine = false;
};

/// Reads a document of the kind protocol.
ProtocolRead read_protocol(const Document& document, Diagnostics& notes);

/// Every mapping of a protocol with its keys, for the format page.
const std::vector<KeyList>& protocol_keys();

}  // namespace hailwright::input
