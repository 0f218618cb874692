/* A request of the page: the target is that of its tests (tests/page/one_request.c). */
#include "../page/one_request.c"
