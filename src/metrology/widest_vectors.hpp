#pragma once

#include <type_traits>
#include <utility>

namespace hailwright::detail {

// Loops over arrays are compiled once for each set of vector instructions and the processor's
// widest is taken when the program runs. The bits are the same, since every element goes through
// the same operations in the same order and nothing is contracted (-ffp-contract=off).

/// Sets of vector instructions; the number is how many doubles one of them holds.
enum class Vectors { plain = 2, avx2 = 4, avx512 = 8 };

/// How many elements at a time are worth it, as a type that a loop can be made for.
template <Vectors vectors>
using Width = std::integral_constant<int, static_cast<int>(vectors)>;

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)

inline Vectors widest_vectors() {
  if (__builtin_cpu_supports("avx2") == 0) return Vectors::plain;
  const bool wider =
      __builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512dq") != 0 &&
      __builtin_cpu_supports("avx512vl") != 0 && __builtin_cpu_supports("avx512bw") != 0;
  return wider ? Vectors::avx512 : Vectors::avx2;
}

template <class Loop>
[[gnu::target("avx512f,avx512dq,avx512vl,avx512bw")]] void run_avx512(Loop& loop) {
  loop(Width<Vectors::avx512>{});
}

template <class Loop>
[[gnu::target("avx2")]] void run_avx2(Loop& loop) {
  loop(Width<Vectors::avx2>{});
}

#else

inline Vectors widest_vectors() {
  return Vectors::plain;
}

template <class Loop>
void run_avx512(Loop& loop) {
  loop(Width<Vectors::plain>{});
}

template <class Loop>
void run_avx2(Loop& loop) {
  loop(Width<Vectors::plain>{});
}

#endif

/// Runs `loop(Width)` with these instructions, which the processor must have. For `loop` to be
/// compiled for them it and all that it calls must be always_inline.
template <class Loop>
void run_with(Vectors vectors, Loop loop) {
  switch (vectors) {
  case Vectors::avx512:
    return run_avx512(loop);
  case Vectors::avx2:
    return run_avx2(loop);
  case Vectors::plain:
    return loop(Width<Vectors::plain>{});
  }
}

}  // namespace hailwright::detail
