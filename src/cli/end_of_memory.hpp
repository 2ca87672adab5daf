#pragma once

namespace hailwright::cli {

/// Makes the end of memory an orderly one. A reserve is kept back and given up when an allocation
/// fails, so that what follows, the destructors on the way out, gets what it needs (those of
/// nlohmann-json allocate). Where that is not enough and a std::bad_alloc cannot leave a function,
/// the program ends at once, with the same message and code.
/// @throws std::bad_alloc where there is not even the reserve
void prepare_for_end_of_memory();

/// Whether the reserve had to be given up. Some libraries, streams among them, keep a failed
/// allocation to themselves, and what then comes of a file is not the file's fault.
bool memory_has_ended();

/// Says so on standard error, without allocating; exit_memory.
int tell_end_of_memory();

}  // namespace hailwright::cli
