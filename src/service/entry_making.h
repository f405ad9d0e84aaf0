#pragma once
// What every edit does alike: is it a repeat, and what does its entry hold.

#include "src/service/edits.h"
#include "src/service/open_shop.h"

namespace hw::service {

// What an edit is about: with its id that says whether it was sent before.
struct EditPlace {
  std::string_view kind;
  std::string_view machine;
  std::optional<std::string> task = {};
};

// The entry that an id already made: the same edit was sent twice. Refuses (conflict) an id that made another kind of
// entry or one of another machine or task.
Result<std::optional<Entry>> repeated(const OpenShop& shop, std::string_view id, const EditPlace& place);

// An id that was used for something else.
inline const Saying id_used{"id-used"};

// Keeps why the entry cannot count for what it was meant for.
void make_stray(Entry& entry, const Error& why);

// Refuses (conflict) a task that was retired, saying when.
Result<void> check_is_not_retired(const OpenShop& shop, const TaskRecord& record);

// The task of an open machine. Refuses (not_found) where there is none.
Result<const TaskRecord*> find_task(const OpenMachine& machine, std::string_view key);

// Times are kept in whole milliseconds; what is in memory is what a restart reads.
Instant as_kept(Instant at);
std::optional<Instant> as_kept(std::optional<Instant> at);

// An entry that the server hears of now, without counters: about a machine that is not there, or about all of them.
Entry bare_entry(const OpenShop& shop, std::string_view machine, std::string_view kind, const Signature& signature,
                 Instant now);

// An entry that the server hears of now, with every counter's total at the moment when it happened. The caller holds a
// lock. Refuses what the store refuses.
Result<Entry> new_entry(const OpenShop& shop, const OpenMachine& machine, std::string_view kind,
                        const Signature& signature, Instant now);

// The same by the machine's key. For a machine that the shop does not have it is stray, under that key and without
// counters: what somebody entered is kept. Refuses (bad_input) what can be no key.
Result<Entry> new_or_stray_entry(const OpenShop& shop, std::string_view machine, std::string_view kind,
                                 const Signature& signature, Instant now);

// What the entry of a task that was done says; `title` is the task's.
void tell_done(Entry& entry, const std::string& title, std::optional<AsFound> as_found);

// Writes one entry in a transaction of its own.
Result<void> keep(Store& store, Entry& entry);

// Takes over, for tasks of a machine, by which entry the store says that they were done last; what shows the machine is
// to show it anew. Tasks that the machine does not have are left out. The caller holds no lock.
Result<void> reload_last_done(OpenShop& shop, std::string_view machine, const std::vector<std::string>& tasks);

}  // namespace hw::service
