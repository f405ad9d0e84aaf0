#pragma once
// hourwright tls init and tls use: what HTTPS on the shop's own network needs (docs/set-up/phones.md).

#include "libs/certificates/tls_folder.h"
#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_tls_command(CLI::App& app, const Entrances& entrances, Answer& answer);

// What is served from now on, for people.
std::string served_text(const certificates::Served& served, const std::string& data);
// The same as one JSON object.
std::string served_json(const certificates::Served& served);

// "AB:CD:..." of hexadecimal digits, as phones show fingerprints.
std::string spaced_fingerprint(std::string_view hexadecimal);

}  // namespace hw::terminal
