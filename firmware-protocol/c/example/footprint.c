/* One device and nothing else: its size in memory, for `size`. */
#include "../turfwire.h"

tw_device tw_footprint;
