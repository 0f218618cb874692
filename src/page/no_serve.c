/* no_serve.c - in place of serve.c where libmicrohttpd was not there at build time. */
#include "bolewright/page.h"

bool bw_page_can_serve(void)
{
    return false;
}

bw_status bw_page_serve(bw_page *page, int port,
                        void (*ready)(void *context, const char *address), void *context,
                        bw_diags *d)
{
    (void)page;
    (void)port;
    (void)ready;
    (void)context;
    bw_diags_error(d, "page.none", NULL,
                   "install libmicrohttpd-dev, then configure and build again",
                   "this bolewright was built without its page");
    return BW_E_IO;
}
