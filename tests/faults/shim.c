/* Makes system calls fail, for tests: preloaded into leadpipe by tests/faults/shim.rs.
 *
 * FAULT_KIND     which calls: "open", "write" and so on
 * FAULT_NTH      the first that fails, counted from 1; with 0 none does
 * FAULT_ERRNO    the error; with 0 a read or a write does half of what it was asked for
 * FAULT_FOREVER  1 if all calls of the kind after it fail as well
 * FAULT_BELOW    only calls on files below this folder count (threads and the standard output excepted)
 * FAULT_LOG      what failed goes to this file, a line each; how many calls of each kind there were comes last
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

enum kind {
    OPEN, READ, WRITE, SEEK, CLOSE, SYNC, RENAME, LINK, UNLINK, MKDIR, STAT, CHMOD, CHOWN, LOCK, LIST, TRUNCATE, THREAD,
    OUTPUT, KINDS
};
static const char *const names[KINDS] = {
    "open", "read", "write", "seek", "close", "sync", "rename", "link", "unlink", "mkdir", "stat", "chmod", "chown",
    "lock", "list", "truncate", "thread", "output",
};

/* No command makes as many calls of one kind. */
#define MOST_FAILURES 20000

static atomic_long calls[KINDS];
static enum kind wanted = KINDS;
static long nth, error_number;
static int forever, ready, log_file = -1;
static const char *below;
static size_t below_length;

static long number(const char *name) {
    const char *text = getenv(name);
    return text ? atol(text) : 0;
}

static void log_line(const char *text) {
    if (log_file >= 0) syscall(SYS_write, log_file, text, strlen(text));
}

__attribute__((constructor)) static void begin(void) {
    const char *kind = getenv("FAULT_KIND"), *log = getenv("FAULT_LOG");
    below = getenv("FAULT_BELOW");
    if (!kind || !log || !below) return;
    below_length = strlen(below);
    for (int i = 0; i < KINDS; i++)
        if (!strcmp(kind, names[i])) wanted = i;
    nth = number("FAULT_NTH");
    error_number = number("FAULT_ERRNO");
    forever = (int)number("FAULT_FOREVER");
    /* Appended, so that lines of several threads stay whole. */
    log_file = (int)syscall(SYS_openat, AT_FDCWD, log, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    ready = 1;
}

__attribute__((destructor)) static void end(void) {
    char line[64];
    for (int i = 0; ready && i < KINDS; i++) {
        snprintf(line, sizeof line, "calls %s %ld\n", names[i], atomic_load(&calls[i]));
        log_line(line);
    }
}

/* Counts a call on this file and says whether it is to fail. */
static int fails_at(enum kind kind, const char *path) {
    long count;
    if (!ready) return 0;
    count = atomic_fetch_add(&calls[kind], 1) + 1;
    if (kind != wanted || nth == 0 || count < nth || (count > nth && !forever)) return 0;
    /* A loop that tries for ever is stopped before it fills the disk. */
    if (count > nth + MOST_FAILURES) {
        log_line("endless\n");
        abort();
    }
    /* One line is enough. */
    if (count < nth + 20) {
        char line[PATH_MAX + 64];
        snprintf(line, sizeof line, "failed %s %s\n", names[kind], path);
        log_line(line);
    }
    errno = (int)error_number;
    return 1;
}

static int fails_path(enum kind kind, const char *path) {
    if (!ready || !path) return 0;
    /* leadpipe runs in the test's folder: what is relative is below it. */
    if (!strncmp(path, "./", 2)) path += 2;
    if (path[0] != '/') return fails_at(kind, path);
    return strncmp(path, below, below_length) == 0 && fails_at(kind, path);
}

static int fails_file(enum kind kind, int file) {
    char link[48], path[PATH_MAX];
    ssize_t length;
    int before = errno;
    if (!ready || file < 0) return 0;
    if (kind == WRITE && file == STDOUT_FILENO) return fails_at(OUTPUT, "the standard output");
    snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    length = syscall(SYS_readlinkat, AT_FDCWD, link, path, sizeof path - 1);
    errno = before;
    if (length <= 0) return 0;
    path[length] = 0;
    return path[0] == '/' && fails_path(kind, path);
}

#define NEXT(name)                                                   \
    static __typeof__(&name) real;                                   \
    if (!real) real = (__typeof__(&name))dlsym(RTLD_NEXT, #name)

#define ON_PATH(kind, result, name, path, parameters, arguments) \
    result name parameters {                                     \
        NEXT(name);                                              \
        return fails_path(kind, path) ? -1 : real arguments;     \
    }
#define ON_FILE(kind, result, name, file, parameters, arguments) \
    result name parameters {                                     \
        NEXT(name);                                              \
        return fails_file(kind, file) ? -1 : real arguments;     \
    }

/* The mode is there only if a file may be made. */
#define MODE(flags)                                     \
    mode_t mode = 0;                                    \
    if ((flags) & (O_CREAT | O_TMPFILE)) {              \
        va_list rest;                                   \
        va_start(rest, flags);                          \
        mode = va_arg(rest, mode_t);                    \
        va_end(rest);                                   \
    }
#define OPENS(name)                                                 \
    int name(const char *path, int flags, ...) {                    \
        NEXT(name);                                                 \
        MODE(flags)                                                 \
        return fails_path(OPEN, path) ? -1 : real(path, flags, mode); \
    }
#define OPENS_AT(name)                                                    \
    int name(int at, const char *path, int flags, ...) {                  \
        NEXT(name);                                                       \
        MODE(flags)                                                       \
        return fails_path(OPEN, path) ? -1 : real(at, path, flags, mode); \
    }
OPENS(open)
OPENS(open64)
OPENS_AT(openat)
OPENS_AT(openat64)

#define MOVES(kind, name, parameters, whole, half)                       \
    ssize_t name parameters {                                            \
        NEXT(name);                                                      \
        if (!fails_file(kind, file)) return real whole;                  \
        return error_number ? -1 : real half;                            \
    }
#define SOME (length > 1 ? length / 2 : length)
MOVES(READ, read, (int file, void *to, size_t length), (file, to, length), (file, to, SOME))
MOVES(READ, pread64, (int file, void *to, size_t length, off64_t at), (file, to, length, at), (file, to, SOME, at))
MOVES(WRITE, write, (int file, const void *from, size_t length), (file, from, length), (file, from, SOME))
MOVES(WRITE, pwrite64, (int file, const void *from, size_t length, off64_t at), (file, from, length, at),
      (file, from, SOME, at))
MOVES(WRITE, writev, (int file, const struct iovec *from, int length), (file, from, length), (file, from, SOME))

ssize_t copy_file_range(int from, off64_t *in, int to, off64_t *out, size_t length, unsigned flags) {
    NEXT(copy_file_range);
    return fails_file(WRITE, to) ? -1 : real(from, in, to, out, length, flags);
}

ON_FILE(SEEK, off64_t, lseek64, file, (int file, off64_t by, int from), (file, by, from))
ON_FILE(SEEK, off_t, lseek, file, (int file, off_t by, int from), (file, by, from))
ON_FILE(SYNC, int, fsync, file, (int file), (file))
ON_FILE(SYNC, int, fdatasync, file, (int file), (file))
ON_FILE(LOCK, int, flock, file, (int file, int how), (file, how))
ON_FILE(TRUNCATE, int, ftruncate64, file, (int file, off64_t length), (file, length))
ON_FILE(TRUNCATE, int, ftruncate, file, (int file, off_t length), (file, length))
ON_FILE(CHMOD, int, fchmod, file, (int file, mode_t mode), (file, mode))
ON_FILE(CHOWN, int, fchown, file, (int file, uid_t user, gid_t group), (file, user, group))
ON_FILE(STAT, int, fstat64, file, (int file, struct stat64 *to), (file, to))
ON_FILE(STAT, int, fstat, file, (int file, struct stat *to), (file, to))

ON_PATH(RENAME, int, rename, to, (const char *from, const char *to), (from, to))
ON_PATH(RENAME, int, renameat, to, (int a, const char *from, int b, const char *to), (a, from, b, to))
ON_PATH(RENAME, int, renameat2, to, (int a, const char *from, int b, const char *to, unsigned how),
        (a, from, b, to, how))
ON_PATH(LINK, int, link, to, (const char *from, const char *to), (from, to))
ON_PATH(LINK, int, linkat, to, (int a, const char *from, int b, const char *to, int flags), (a, from, b, to, flags))
ON_PATH(UNLINK, int, unlink, path, (const char *path), (path))
ON_PATH(UNLINK, int, unlinkat, path, (int at, const char *path, int flags), (at, path, flags))
ON_PATH(UNLINK, int, rmdir, path, (const char *path), (path))
ON_PATH(MKDIR, int, mkdir, path, (const char *path, mode_t mode), (path, mode))
ON_PATH(CHMOD, int, chmod, path, (const char *path, mode_t mode), (path, mode))
ON_PATH(CHMOD, int, fchmodat, path, (int at, const char *path, mode_t mode, int flags), (at, path, mode, flags))
ON_PATH(CHOWN, int, chown, path, (const char *path, uid_t user, gid_t group), (path, user, group))
ON_PATH(CHOWN, int, lchown, path, (const char *path, uid_t user, gid_t group), (path, user, group))
ON_PATH(STAT, int, stat64, path, (const char *path, struct stat64 *to), (path, to))
ON_PATH(STAT, int, lstat64, path, (const char *path, struct stat64 *to), (path, to))
ON_PATH(STAT, int, fstatat64, path, (int at, const char *path, struct stat64 *to, int flags), (at, path, to, flags))

int statx(int at, const char *restrict path, int flags, unsigned mask, struct statx *restrict to) {
    NEXT(statx);
    /* Rust's library asks without a path whether there is such a call; a compiler believes that nobody does. */
    const char *volatile given = path;
    int fails = given && !given[0] ? fails_file(STAT, at) : fails_path(STAT, given);
    return fails ? -1 : real(at, path, flags, mask, to);
}

char *realpath(const char *restrict path, char *restrict to) {
    NEXT(realpath);
    return fails_path(STAT, path) ? NULL : real(path, to);
}

/* A failed close has closed the file even so. */
int close(int file) {
    NEXT(close);
    if (!fails_file(CLOSE, file)) return real(file);
    real(file);
    errno = (int)error_number;
    return -1;
}

DIR *opendir(const char *path) {
    NEXT(opendir);
    return fails_path(LIST, path) ? NULL : real(path);
}

struct dirent64 *readdir64(DIR *folder) {
    NEXT(readdir64);
    return fails_file(LIST, dirfd(folder)) ? NULL : real(folder);
}

int pthread_create(pthread_t *restrict thread, const pthread_attr_t *restrict how, void *(*start)(void *),
                   void *restrict argument) {
    NEXT(pthread_create);
    return fails_at(THREAD, "a thread") ? (int)error_number : real(thread, how, start, argument);
}
