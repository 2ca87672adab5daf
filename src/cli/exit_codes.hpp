#pragma once

namespace hailwright::cli {

inline constexpr int exit_done = 0;
inline constexpr int exit_not_withstood = 1;  ///< `judge --strict`: anything but withstood
inline constexpr int exit_usage = 2;
inline constexpr int exit_input = 3;   ///< errors in the files
inline constexpr int exit_gate = 4;    ///< `plan`: the safety section is not answered, or refused
inline constexpr int exit_output = 5;  ///< the output could not be written
inline constexpr int exit_bug = 70;
inline constexpr int exit_memory = 71;  ///< the system gave no more memory

}  // namespace hailwright::cli
