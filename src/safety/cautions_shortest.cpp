#include "hailwright/safety/cautions.hpp"

namespace hailwright {

std::string_view shortest_caution() {
  return "Nobody in front of the launcher or beside the panel. Goggles on. One adult does nothing "
         "but "
         "watch. Cover the panel before touching leads.";
}

}  // namespace hailwright
