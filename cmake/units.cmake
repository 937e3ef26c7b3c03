# source_units(OUT NAME FILES...): the files to compile in place of FILES. With AWLMARK_UNITY, FILES joined into few units
# (cmake/units.py says which may share one); without it, FILES themselves, so that work on one file compiles one file.
# The topics of reckon are always joined: each is small, and each alone costs seven seconds of the same headers.
set(AWLMARK_UNIT_FILES 12 CACHE STRING "Files in one unit at most, with AWLMARK_UNITY")
function(source_units out name)
  set(files ${ARGN})
  list(LENGTH files count)
  if((AWLMARK_UNITY OR name STREQUAL "reckon") AND count GREATER 1)
    list(TRANSFORM files REPLACE "^${CMAKE_SOURCE_DIR}/" "")
    execute_process(
      COMMAND python3 "${CMAKE_SOURCE_DIR}/cmake/units.py" "${CMAKE_SOURCE_DIR}" "${CMAKE_BINARY_DIR}/units/${name}" ${AWLMARK_UNIT_FILES} ${files}
      OUTPUT_VARIABLE units OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    string(REPLACE "\n" ";" files "${units}")
    # Which names a file keeps to itself decides where it may stand.
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${ARGN})
  endif()
  set(${out} ${files} PARENT_SCOPE)
endfunction()
