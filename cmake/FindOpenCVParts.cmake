# OpenCV's core and imgproc. Debian's libopencv-core-dev and libopencv-imgproc-dev bring no OpenCVConfig.cmake, so
# headers and libraries are looked for one by one where the package file is missing.
find_package(OpenCV 4.5 QUIET COMPONENTS core imgproc)
if(NOT TARGET opencv_core)
  find_path(OpenCVParts_INCLUDE_DIR opencv2/imgproc.hpp PATH_SUFFIXES opencv4)
  find_library(OpenCVParts_CORE opencv_core)
  find_library(OpenCVParts_IMGPROC opencv_imgproc)
  mark_as_advanced(OpenCVParts_INCLUDE_DIR OpenCVParts_CORE OpenCVParts_IMGPROC)
endif()

include(FindPackageHandleStandardArgs)
if(TARGET opencv_core)
  find_package_handle_standard_args(OpenCVParts REQUIRED_VARS OpenCV_VERSION)
else()
  find_package_handle_standard_args(OpenCVParts
    REQUIRED_VARS OpenCVParts_CORE OpenCVParts_IMGPROC OpenCVParts_INCLUDE_DIR)
endif()

if(OpenCVParts_FOUND AND NOT TARGET OpenCVParts::OpenCVParts)
  add_library(OpenCVParts::OpenCVParts INTERFACE IMPORTED)
  if(TARGET opencv_core)
    target_link_libraries(OpenCVParts::OpenCVParts INTERFACE opencv_core opencv_imgproc)
  else()
    target_include_directories(OpenCVParts::OpenCVParts SYSTEM INTERFACE "${OpenCVParts_INCLUDE_DIR}")
    target_link_libraries(OpenCVParts::OpenCVParts INTERFACE "${OpenCVParts_IMGPROC}" "${OpenCVParts_CORE}")
  endif()
endif()
