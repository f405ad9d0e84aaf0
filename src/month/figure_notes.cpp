#include "src/month/figure_notes.h"

namespace hw::month {
namespace {

constexpr condition::StandardNote iso_22400{
    "ISO 22400-2:2014",
    "that MTTR is formed of FE and TTR for each work unit (public ontology of ISO 22400-2 by a university); "
    "that availability is APT / PBT (public text)",
    "the formulas themselves, above all the division by FE + 1",
    "the tables of availability, MTBF, MTTR and corrective maintenance ratio"};

constexpr condition::StandardNote by_failures{"common practice, no standard; the bound: NIST e-Handbook 8.4.5.1",
                                              "the bound agrees with published results (see life)",
                                              "that practice divides by the number of failures",
                                              "what your own contracts mean by MTBF and MTTR"};

constexpr condition::StandardNote en_15341{
    "EN 15341, in the sense of its technical availability (2007: T1; 2019 counts time-based availability as M10)",
    "that M10 rests on operating time and down time within the required time (public text)",
    "the formula by operating time and time to repair", "the indicators T1 and M10"};

constexpr condition::StandardNote own_choice{"no standard: our own definition", "nothing to confirm", "nothing",
                                             "whether your shop means the same by it"};

}  // namespace

const std::array<FigureNote, figure_count> figure_notes = {{
    {FigureKey::availability, "Availability", "1",
     "Of the hours in which production was planned, those in which a program ran. Planned are the hours of the shifts "
     "without those of agreed stops.",
     "APT / PBT", iso_22400},
    {FigureKey::technical_availability, "Technical availability", "1",
     "Operating time as a share of operating time and time to repair.", "sum TBF / (sum TBF + sum TTR)", en_15341},
    {FigureKey::mtbf_by_failures, "MTBF, by failures", "h",
     "Operating time between failures, divided by the number of failures. A failure is a finding that stops the "
     "machine.",
     "sum TBF / FE", by_failures},
    {FigureKey::mtbf_by_iso_22400, "MTBF, by ISO 22400-2", "h",
     "The same operating time, divided by one more than the number of failures: the periods before, between and after "
     "them.",
     "sum TBF / (FE + 1)", iso_22400},
    {FigureKey::mttr_by_failures, "MTTR, by failures", "h",
     "Time from the finding to its settlement, by the clock on the wall, divided by the number of failures.",
     "sum TTR / FE", by_failures},
    {FigureKey::mttr_by_iso_22400, "MTTR, by ISO 22400-2", "h",
     "The same time, divided by one more than the number of failures.", "sum TTR / (FE + 1)", iso_22400},
    {FigureKey::corrective_ratio, "Corrective maintenance ratio", "1",
     "Of the hours that machines stood for failures or for agreed stops, those for failures.", "CMT / (CMT + PMT)",
     iso_22400},
    {FigureKey::planned_share, "Share of work planned", "1",
     "Of the hands-on hours of all tasks that were done, those of tasks done in agreed stops. Work on findings has no "
     "hours of its own and is not in it, nor are rounds.",
     "hours in stops / all hours", own_choice},
    {FigureKey::tasks_in_time, "Tasks in time", "1",
     "Of the tasks that were done in the month or became overdue in it, those done before they were overdue. Checks of "
     "rounds are not among them.",
     "in time / (done + overdue and not done)", own_choice},
    {FigureKey::rounds_walked, "Rounds walked", "1",
     "Of the turns of rounds that are over, those whose checks were all answered.", "walked / turns", own_choice},
    {FigureKey::failure_cost_share, "Share of failures in the cost", "1",
     "Cost of failures as a share of the cost of care and of failures. Standing costs only while production was "
     "planned.",
     "failures / (care + failures)", own_choice},
}};

const FigureNote& note_of(FigureKey key) { return figure_notes[static_cast<std::size_t>(key)]; }

}  // namespace hw::month
