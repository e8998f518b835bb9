#include "bind/module.h"

#include <dlfcn.h>
#include <limits.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/fault.h"
#include "lang/raise.h"

extern char **environ;

static void leave_environment(void)
{
    /* It would look for its data in the home folder first, or else in /tmp. */
    static char word[] = "PROJ_SKIP_READ_USER_WRITABLE_DIRECTORY=YES";
    static char *only[] = { word, NULL };
    environ = only;
}

/* The folder of the running program, with its slash; false when it cannot be told. */
static bool own_folder(char *out, size_t size)
{
    ssize_t length = readlink("/proc/self/exe", out, size - 1);
    if (length <= 0)
        return false;
    out[length] = '\0';
    char *slash = strrchr(out, '/');
    if (!slash)
        return false;
    slash[1] = '\0';
    return true;
}

/* What fails here comes again with the module, and is told then. */
static void open_needs(void)
{
    for (size_t i = 0; module_needs[i]; i++)
        (void)dlopen(module_needs[i], RTLD_LAZY | RTLD_LOCAL);
}

/* POSIX gives a function as a pointer to data. */
union opener {
    void *found;
    lua_CFunction open;
};

static bool load(const char *name, union opener *out, struct fault *f)
{
    static const char *const folders[] = { "", "../lib/spinney/" };
    char own[PATH_MAX], path[PATH_MAX + 80], symbol[80];
    void *library = NULL;
    bool there = false;
    out->found = NULL;
    for (size_t i = 0; i < 2 && !there && own_folder(own, sizeof own); i++) {
        snprintf(path, sizeof path, "%s%sspinney-%s.so", own, folders[i], name);
        there = access(path, F_OK) == 0;
    }
    if (!there) {
        fault_set(f, "module-missing", SPAN_NONE,
                  "the part of Spinney that reads %s (spinney-%s.so) is not beside it",
                  name, name);
        fault_hint(f, "install Spinney again, with `make install`");
        return false;
    }
    leave_environment();
    open_needs();
    library = dlopen(path, RTLD_LAZY | RTLD_LOCAL);
    snprintf(symbol, sizeof symbol, "luaopen_%s", name);
    if (library)
        out->found = dlsym(library, symbol);
    if (out->found)
        return true;
    const char *words = dlerror();
    /* "libgdal.so.32: cannot open shared object file: ..." */
    fault_set(f, "module-missing", SPAN_NONE,
              "the part of Spinney that reads %s cannot be loaded: %.200s", name,
              words ? words : "it is broken");
    fault_hint(f, "install the libraries that it stands on: `.ci/deps build`");
    return false;
}

int module_open(lua_State *L, const char *name)
{
    union opener opener;
    struct fault f = { 0 };
    if (!load(name, &opener, &f))
        fault_raise(L, &f);
    lua_pushcfunction(L, opener.open);
    lua_call(L, 0, 1);
    return 1;
}
