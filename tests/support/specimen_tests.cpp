#include "support/specimen_tests.hpp"

#include <string>

namespace hailwright::testing {

Specimens specimens_of(const std::vector<double>& energies_J, const std::vector<int>& damaged) {
  Specimens specimens;
  for (std::size_t i = 0; i < energies_J.size(); ++i) {
    SpecimenTest test;
    test.specimen = "S" + std::to_string(i + 1);
    test.energy = Energy::from_si(energies_J[i]);
    test.damaged = damaged[i] == 1;
    specimens.tests.push_back(test);
  }
  return specimens;
}

}  // namespace hailwright::testing
