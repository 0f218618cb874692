# Found by find_package(bolewright): the target bolewright::bolewright, and what it links.
include(CMakeFindDependencyMacro)
set(THREADS_PREFER_PTHREAD_FLAG ON)
find_dependency(Threads)
find_dependency(PkgConfig)
pkg_check_modules(LAPACKE REQUIRED QUIET IMPORTED_TARGET lapacke)
pkg_check_modules(CJSON REQUIRED QUIET IMPORTED_TARGET libcjson)
include(${CMAKE_CURRENT_LIST_DIR}/bolewright-targets.cmake)
