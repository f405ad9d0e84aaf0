#include "src/service/plant_visits.h"
