# libjpeg-turbo's library of its own. Debian's package file for it wants another package as well.
# Defines turbojpeg::turbojpeg. Installed beside hailwright-config.cmake too: whoever links the
# static library links this.
find_path(turbojpeg_INCLUDE_DIR NAMES turbojpeg.h)
find_library(turbojpeg_LIBRARY NAMES turbojpeg)
mark_as_advanced(turbojpeg_INCLUDE_DIR turbojpeg_LIBRARY)
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(turbojpeg REQUIRED_VARS turbojpeg_LIBRARY turbojpeg_INCLUDE_DIR)
if(turbojpeg_FOUND AND NOT TARGET turbojpeg::turbojpeg)
  add_library(turbojpeg::turbojpeg UNKNOWN IMPORTED)
  set_target_properties(turbojpeg::turbojpeg PROPERTIES
    IMPORTED_LOCATION "${turbojpeg_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${turbojpeg_INCLUDE_DIR}")
endif()
