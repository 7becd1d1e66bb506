/*
 * A serial wire without hardware: a pseudo-terminal in raw mode.
 *
 *   pty                  bridges the instrument's end to standard input and output
 *   pty PROGRAM [ARG]…   runs the program with the instrument's end as its standard input and output
 *
 * The path of the host's end goes to standard error, one line. To unplug the wire, kill the process.
 */
#define _XOPEN_SOURCE 600
#define _DEFAULT_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif

/* One direction of the bridge: what was read and is not yet written. */
struct flow {
  int from, to;
  size_t held, written;
  char bytes[4096];
};

static void fail(const char *what) {
  fprintf(stderr, "%s: %s\n", what, strerror(errno));
  exit(1);
}

static void make_raw(int terminal) {
  struct termios settings;
  if (tcgetattr(terminal, &settings) != 0) fail("tcgetattr");
  settings.c_iflag &= ~(tcflag_t)(IGNBRK | BRKINT | PARMRK | ISTRIP | INLCR | IGNCR | ICRNL | IXON);
  settings.c_oflag &= ~(tcflag_t)OPOST;
  settings.c_lflag &= ~(tcflag_t)(ECHO | ECHONL | ICANON | ISIG | IEXTEN);
  settings.c_cflag = (settings.c_cflag & ~(tcflag_t)(CSIZE | PARENB)) | CS8;
  if (tcsetattr(terminal, TCSANOW, &settings) != 0) fail("tcsetattr");
}

/* The host's end stays open here too, so that the instrument's end outlives a host that closes and reopens. */
static int open_wire(void) {
  int instrument = posix_openpt(O_RDWR | O_NOCTTY);
  if (instrument < 0 || grantpt(instrument) != 0 || unlockpt(instrument) != 0) fail("posix_openpt");
  const char *path = ptsname(instrument);
  int host = path == NULL ? -1 : open(path, O_RDWR | O_NOCTTY);
  if (host < 0) fail("ptsname");
  make_raw(host);
  fprintf(stderr, "%s\n", path);
  return instrument;
}

static void set_nonblocking(int descriptor) {
  int flags = fcntl(descriptor, F_GETFL);
  if (flags < 0 || fcntl(descriptor, F_SETFL, flags | O_NONBLOCK) != 0) fail("fcntl");
}

/* Moves what can be moved without waiting. Returns 0 when this direction is at its end. */
static int move(struct flow *flow) {
  if (flow->held == 0) {
    ssize_t count = read(flow->from, flow->bytes, sizeof flow->bytes);
    if (count == 0) return 0;
    if (count < 0) return errno == EAGAIN || errno == EINTR;
    flow->held = (size_t)count;
    flow->written = 0;
  }
  ssize_t count = write(flow->to, flow->bytes + flow->written, flow->held - flow->written);
  if (count < 0) return errno == EAGAIN || errno == EINTR;
  flow->written += (size_t)count;
  if (flow->written == flow->held) flow->held = 0;
  return 1;
}

static void bridge(int instrument) {
  static struct flow flows[2];
  flows[0].from = STDIN_FILENO;
  flows[0].to = instrument;
  flows[1].from = instrument;
  flows[1].to = STDOUT_FILENO;
  set_nonblocking(STDIN_FILENO);
  set_nonblocking(STDOUT_FILENO);
  set_nonblocking(instrument);
  for (;;) {
    struct pollfd waits[2];
    for (int i = 0; i < 2; i++) {
      waits[i].fd = flows[i].held > 0 ? flows[i].to : flows[i].from;
      waits[i].events = flows[i].held > 0 ? POLLOUT : POLLIN;
    }
    if (poll(waits, 2, -1) < 0 && errno != EINTR) fail("poll");
    for (int i = 0; i < 2; i++) {
      if (waits[i].revents != 0 && !move(&flows[i])) return;
    }
  }
}

int main(int count, char *arguments[]) {
#ifdef __linux__
  prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
  int instrument = open_wire();
  if (count < 2) {
    bridge(instrument);
    return 0;
  }
  if (dup2(instrument, STDIN_FILENO) < 0 || dup2(instrument, STDOUT_FILENO) < 0) fail("dup2");
  execvp(arguments[1], arguments + 1);
  fail(arguments[1]);
}
