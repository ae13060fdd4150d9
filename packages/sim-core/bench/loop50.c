/*
 * The loop of scenarios/loop50.yaml, written out by hand for this loop alone: what the simulator is measured against.
 *
 *   cc -O3 loop50.c -lm -o loop50 && ./loop50 SEED
 *
 * Fifty modules in a ring; number i lifts 1 + i mod 4 balls in a lognormal cycle of mean 0.9 s a ball and cv 0.05, without
 * pause, and its run-out takes 8 + i mod 7 seconds. Baskets hold 160, the rest spills. One cycle in 2000 is stopped at a
 * random point; three minders, first come first served, walk 20 s and clear in an exponential time of mean 60 s. Every
 * 300 s all balls on the floor go into basket 0 as far as there is room. 720 balls, eight hours, module 0 counts.
 *
 * The same rules with luck of its own: it agrees with the simulator in distribution, not ball for ball. A binary heap
 * holds the future events. Prints seconds of computing, events, balls counted, mean lap, spills and stops.
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MODULES = 50, BALLS = 720, ROOM = 160, MINDERS = 3 };
/* Powers of two; a run-out of 14 s never has 64 batches on it. */
enum { RING = 1024, BATCHES = 64 };
enum { CLEARED, ARRIVES, CYCLE_ENDS, STOPS, SWEEP };

static const double SHOW = 8 * 3600, STOP_CHANCE = 0.0005, WALK = 20, CLEAR = 60, EVERY = 300, CV = 0.05;

/* splitmix64 (Steele, Lea & Flood 2014, OOPSLA; constants from memory) */
static uint64_t state;

static double uniform(void) {
  uint64_t z = (state += 0x9E3779B97F4A7C15u);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  return ((double)((z ^ (z >> 31)) >> 11) + 0.5) * 0x1.0p-53;
}

/* Marsaglia's polar method: two at a time. */
static double normal(void) {
  static double kept;
  static int have;
  if (have) {
    have = 0;
    return kept;
  }
  double x, y, r;
  do {
    x = 2 * uniform() - 1;
    y = 2 * uniform() - 1;
    r = x * x + y * y;
  } while (r >= 1 || r == 0);
  double scale = sqrt(-2 * log(r) / r);
  kept = y * scale;
  have = 1;
  return x * scale;
}

/* Future events: by time, then by kind and module. */
typedef struct {
  double time;
  int rank; /* kind x MODULES + module */
} Event;

static Event heap[8 * MODULES];
static int pending;

static int sooner(Event a, Event b) { return a.time < b.time || (a.time == b.time && a.rank < b.rank); }

static void schedule(double time, int kind, int module) {
  Event event = {time, kind * MODULES + module};
  int at = pending++;
  for (int up; at > 0 && sooner(event, heap[up = (at - 1) / 2]); at = up) heap[at] = heap[up];
  heap[at] = event;
}

static Event next_event(void) {
  Event first = heap[0], last = heap[--pending];
  int at = 0;
  for (int down; (down = 2 * at + 1) < pending; at = down) {
    if (down + 1 < pending && sooner(heap[down + 1], heap[down])) down++;
    if (!sooner(heap[down], last)) break;
    heap[at] = heap[down];
  }
  heap[at] = last;
  return first;
}

/* Balls, first in, first out. */
typedef struct {
  uint16_t ball[RING];
  unsigned first, count;
} Line;

static void put(Line *line, unsigned ball) { line->ball[(line->first + line->count++) % RING] = (uint16_t)ball; }

static unsigned take(Line *line) {
  unsigned ball = line->ball[line->first];
  line->first = (line->first + 1) % RING;
  line->count--;
  return ball;
}

static Line basket[MODULES], run_out[MODULES], on_floor;
static unsigned held[MODULES][4], holding[MODULES];
/* The batches on each run-out: when they arrive, and how many balls each. */
static struct {
  double arrives[BATCHES];
  unsigned balls[BATCHES], first, count;
} under_way[MODULES];
static double cycle_left[MODULES], last_pass[BALLS];
static int waiting_for_minder[MODULES], waiting;

static void begin_cycle(double now, int m, double sigma) {
  unsigned batch = 1 + (unsigned)m % 4;
  unsigned balls = basket[m].count < batch ? basket[m].count : batch;
  for (unsigned i = 0; i < balls; i++) held[m][i] = take(&basket[m]);
  holding[m] = balls;
  double length = 0.9 * batch * exp(sigma * normal() - 0.5 * sigma * sigma);
  if (uniform() < STOP_CHANCE) {
    double ran = uniform() * length;
    cycle_left[m] = length - ran;
    schedule(now + ran, STOPS, m);
  } else {
    schedule(now + length, CYCLE_ENDS, m);
  }
}

static void send_minder(double now, int m) { schedule(now + WALK - CLEAR * log(uniform()), CLEARED, m); }

int main(int argc, char **argv) {
  struct timespec from, to;
  clock_gettime(CLOCK_MONOTONIC, &from);
  state = argc > 1 ? strtoull(argv[1], NULL, 10) : 1;
  double sigma = sqrt(log1p(CV * CV)), lap_seconds = 0;
  long events = 0, passes = 0, laps = 0, spills = 0, stops = 0;
  int free_minders = MINDERS;
  for (unsigned b = 0; b < BALLS; b++) {
    put(&basket[b % MODULES], b);
    last_pass[b] = -1;
  }
  for (int m = 0; m < MODULES; m++) schedule(uniform() * 0.9 * (1 + m % 4), CYCLE_ENDS, m);
  schedule(EVERY, SWEEP, 0);

  for (;;) {
    Event event = next_event();
    double now = event.time;
    if (now > SHOW) break;
    events++;
    int m = event.rank % MODULES;
    switch (event.rank / MODULES) {
      case CYCLE_ENDS: {
        unsigned balls = holding[m];
        if (balls > 0) {
          double there = now + 8 + m % 7;
          for (unsigned i = 0; i < balls; i++) {
            unsigned b = held[m][i];
            put(&run_out[m], b);
            if (m > 0) continue;
            passes++;
            if (last_pass[b] >= 0) {
              lap_seconds += now - last_pass[b];
              laps++;
            }
            last_pass[b] = now;
          }
          unsigned last = (under_way[m].first + under_way[m].count++) % BATCHES;
          under_way[m].arrives[last] = there;
          under_way[m].balls[last] = balls;
          if (under_way[m].count == 1) schedule(there, ARRIVES, m);
        }
        begin_cycle(now, m, sigma);
        break;
      }
      case ARRIVES: {
        int to_module = (m + 1) % MODULES;
        for (unsigned balls = under_way[m].balls[under_way[m].first]; balls > 0; balls--) {
          unsigned b = take(&run_out[m]);
          if (basket[to_module].count < ROOM) {
            put(&basket[to_module], b);
          } else {
            spills++;
            last_pass[b] = -1;
            put(&on_floor, b);
          }
        }
        under_way[m].first = (under_way[m].first + 1) % BATCHES;
        if (--under_way[m].count > 0) schedule(under_way[m].arrives[under_way[m].first], ARRIVES, m);
        break;
      }
      case STOPS:
        stops++;
        if (free_minders > 0) {
          free_minders--;
          send_minder(now, m);
        } else {
          waiting_for_minder[waiting++] = m;
        }
        break;
      case CLEARED:
        schedule(now + cycle_left[m], CYCLE_ENDS, m);
        if (waiting > 0) {
          send_minder(now, waiting_for_minder[0]);
          waiting--;
          for (int i = 0; i < waiting; i++) waiting_for_minder[i] = waiting_for_minder[i + 1];
        } else {
          free_minders++;
        }
        break;
      case SWEEP:
        while (on_floor.count > 0 && basket[0].count < ROOM) put(&basket[0], take(&on_floor));
        schedule(now + EVERY, SWEEP, 0);
    }
  }
  clock_gettime(CLOCK_MONOTONIC, &to);
  double seconds = (double)(to.tv_sec - from.tv_sec) + 1e-9 * (double)(to.tv_nsec - from.tv_nsec);
  printf("%.9f %ld %ld %.4f %ld %ld\n", seconds, events, passes, lap_seconds / laps, spills, stops);
}
