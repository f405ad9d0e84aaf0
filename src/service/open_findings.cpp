#include "src/service/open_findings.h"

#include <algorithm>

#include "libs/formats/enum_words.h"

namespace hw::service {

Result<void> reload_findings(OpenShop& shop, std::string_view machine) {
  const auto open = shop.find(machine);
  if (!open) return {};
  HW_TAKE(findings, shop.store().open_findings(std::string{machine}));
  std::sort(findings.begin(), findings.end(), is_more_pressing);
  const auto lock = shop.change();
  (*open)->findings = std::move(findings);
  ++(*open)->tasks_version;
  return {};
}

FindingView view_of(const Finding& finding) {
  FindingView view;
  view.id = finding.id;
  view.machine = finding.machine;
  view.what = finding.what;
  view.severity = formats::print_word(finding.severity);
  view.state = finding.settled ? "settled" : "open";
  if (finding.owner) view.owner = *finding.owner;
  if (finding.due_on) view.due_on = *finding.due_on;
  if (finding.task) view.task = *finding.task;
  view.point = finding.point;
  view.check = finding.check;
  view.walk = finding.walk;
  view.by = finding.by;
  view.at = finding.at;
  view.photos = finding.photos;
  if (!finding.settled) return view;
  view.settled_by = finding.settled->by;
  view.settled_at = finding.settled->at;
  view.done = finding.settled->done;
  return view;
}

std::vector<std::string> severities_of(const OpenMachine& machine) {
  std::vector<std::string> severities;
  for (const Finding& finding : machine.findings) severities.push_back(formats::print_word(finding.severity));
  return severities;
}

}  // namespace hw::service
