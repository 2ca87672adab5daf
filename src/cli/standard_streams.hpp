#pragma once

namespace hailwright::cli {

/// Takes the numbers of standard output and standard error where the program was started without
/// them (`>&-`). Else the next file that is opened would get such a number, and what is meant for
/// the stream would end in that file. Writing to them fails afterwards as it did before.
void take_missing_streams();

}  // namespace hailwright::cli
