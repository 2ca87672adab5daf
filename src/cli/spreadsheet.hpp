#pragma once

#include "hailwright/input/readers.hpp"
#include "hailwright/report/workbook.hpp"

namespace hailwright::cli {

/// The bytes of a spreadsheet, made in a temporary folder that is gone afterwards; or why they
/// could not be made.
Loaded spreadsheet_bytes(const Workbook& workbook);

}  // namespace hailwright::cli
