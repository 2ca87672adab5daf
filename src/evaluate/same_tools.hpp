#pragma once

#include "hailwright/model/record.hpp"

namespace hailwright {

enum class Instrument { meter, sun, thermometer };

/// Whether the record says that one and the same instrument read the panels before and after the
/// shots (MEASUREMENT M3): `same_tools: yes`, or another `tools_after` than this one, or one with
/// the id of the protocol's. What nobody says is not taken for granted: then the stages after the
/// shots had another instrument of the same kind.
bool same_tool_said(const Test& test, Instrument which);

/// Whether `tools_after` describes this instrument.
bool described_after(const Record& record, Instrument which);

/// The power meter, the sun meter and the thermometer that a panel was read with before the shots
/// or after them, with all else of the protocol's tools.
Tools tools_when(const Test& test, bool after_the_shots);

}  // namespace hailwright
