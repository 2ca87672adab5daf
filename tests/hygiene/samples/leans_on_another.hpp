#pragma once

// Compiles only after <string>: a sample for the check of lone headers.
inline std::string leaning() {
  return "on another";
}
