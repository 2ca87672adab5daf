# libxlsxwriter, which brings no package file of its own. Defines xlsxwriter::xlsxwriter. Installed
# beside hailwright-config.cmake too: whoever links the static library links this.
find_path(xlsxwriter_INCLUDE_DIR NAMES xlsxwriter.h)
find_library(xlsxwriter_LIBRARY NAMES xlsxwriter)
mark_as_advanced(xlsxwriter_INCLUDE_DIR xlsxwriter_LIBRARY)
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(xlsxwriter REQUIRED_VARS xlsxwriter_LIBRARY xlsxwriter_INCLUDE_DIR)
if(xlsxwriter_FOUND AND NOT TARGET xlsxwriter::xlsxwriter)
  add_library(xlsxwriter::xlsxwriter UNKNOWN IMPORTED)
  set_target_properties(xlsxwriter::xlsxwriter PROPERTIES
    IMPORTED_LOCATION "${xlsxwriter_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${xlsxwriter_INCLUDE_DIR}")
endif()
