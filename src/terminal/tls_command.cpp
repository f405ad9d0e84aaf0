#include "src/terminal/tls_command.h"

#include <cctype>
#include <filesystem>
#include <memory>

#include <CLI/CLI.hpp>
#include <boost/describe/class.hpp>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

namespace fs = std::filesystem;

struct AuthoritySaid {
  std::string title;
  Instant ends_at;
  std::string fingerprint;
};
BOOST_DESCRIBE_STRUCT(AuthoritySaid, (), (title, ends_at, fingerprint))

struct ServedSaid {
  std::vector<std::string> names;
  Instant ends_at;
  formats::OrNull<AuthoritySaid> authority;
};
BOOST_DESCRIBE_STRUCT(ServedSaid, (), (names, ends_at, authority))

std::string day_of(Instant instant) { return print(instant).substr(0, 10); }

// The folder itself is there or misspelt; only `tls` in it is made.
Result<certificates::TlsFolder> folder_in(const std::string& data) {
  std::error_code error;
  if (fs::is_directory(data, error)) return certificates::TlsFolder{fs::path(data) / "tls"};
  return refuse(ErrorCode::not_found, "{}: there is no such folder; it is the one that hourwright found made", data);
}

Result<std::vector<certificates::HostName>> parse_names(const std::vector<std::string>& texts) {
  std::vector<certificates::HostName> names;
  for (const std::string& text : texts) {
    auto name = certificates::parse_host_name(text);
    if (!name) return refuse(name.error().at("--name"));
    names.push_back(std::move(*name));
  }
  return names;
}

struct TlsCall {
  std::string data;
  std::vector<std::string> names;
  int days = certificates::server_days;
  bool with_new_authority = false;
  std::string certificate;
  std::string key;
  bool json = false;
};

Result<certificates::Served> init(const TlsCall& options) {
  HW_TAKE(folder, folder_in(options.data));
  HW_TAKE(names, parse_names(options.names));
  auto served = certificates::init_folder(folder, {names, now(), options.days, options.with_new_authority});
  if (served || served.error().code != ErrorCode::conflict) return served;
  return refuse(ErrorCode::conflict, "{}; --new-authority makes another one, and every phone has to trust that anew",
                served.error().message);
}

Result<certificates::Served> use(const TlsCall& options) {
  HW_TAKE(folder, folder_in(options.data));
  return certificates::use_pair(folder, {options.certificate, options.key}, now());
}

Answer say(const Result<certificates::Served>& served, const TlsCall& options) {
  if (!served) return refuse(served.error());
  return Said{options.json ? served_json(*served) : served_text(*served, options.data)};
}

void add_data(CLI::App& command, TlsCall& options) {
  command.add_option("--data", options.data, "the shop's data folder")->required()->type_name("DIR");
  command.add_flag("--json", options.json, "print JSON");
}

void add_init(CLI::App& tls, const std::shared_ptr<TlsCall>& options, Answer& answer) {
  CLI::App* command = tls.add_subcommand("init", "Makes a local authority, once, and a certificate for the server");
  add_data(*command, *options);
  command
      ->add_option("--name", options->names,
                   "a name or address by which phones reach this computer; as often as "
                   "there are some; without any, those of the authority")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command->add_option("--days", options->days, "how long the certificate lasts; the server renews it by itself")
      ->type_name("DAYS")
      ->check(CLI::Range(1, certificates::server_days_max))
      ->capture_default_str();
  command->add_flag("--new-authority", options->with_new_authority,
                    "make another authority; phones have to trust it anew");
  command->callback([options, &answer] { answer = say(init(*options), *options); });
}

void add_use(CLI::App& tls, const std::shared_ptr<TlsCall>& options, Answer& answer) {
  CLI::App* command = tls.add_subcommand("use", "Takes a certificate of your own and its key");
  add_data(*command, *options);
  command->add_option("CERT", options->certificate, "the certificate with those above it, PEM")->required();
  command->add_option("KEY", options->key, "its key, PEM, not encrypted")->required();
  command->callback([options, &answer] { answer = say(use(*options), *options); });
}

std::string names_of(const certificates::Served& served) {
  std::string text;
  for (const auto& name : served.certificate.names) text += (text.empty() ? "" : ", ") + name.text;
  return text.empty() ? "no name of its own" : text;
}

}  // namespace

std::string spaced_fingerprint(std::string_view hexadecimal) {
  std::string out;
  for (std::size_t i = 0; i < hexadecimal.size(); ++i) {
    if (i > 0 && i % 2 == 0) out += ':';
    out += static_cast<char>(std::toupper(static_cast<unsigned char>(hexadecimal[i])));
  }
  return out;
}

std::string served_text(const certificates::Served& served, const std::string& data) {
  std::string text = fmt::format("{}/tls: a certificate for {}, until {}\n", data, names_of(served),
                                 day_of(served.certificate.ends_at));
  if (served.authority) {
    text += fmt::format(
        "Phones have to trust \"{}\", which lasts until {}. SHA-256 fingerprint, to be compared on the "
        "phone:\n{}\n",
        served.authority->title, day_of(served.authority->ends_at), spaced_fingerprint(served.authority->fingerprint));
  }
  return text + fmt::format(
                    "A server that runs with --listen-tls serves it within seconds. Else: hourwright serve "
                    "--data {} --listen 0.0.0.0:8470 --listen-tls 0.0.0.0:8471\n",
                    data);
}

std::string served_json(const certificates::Served& served) {
  ServedSaid said;
  for (const auto& name : served.certificate.names) said.names.push_back(name.text);
  said.ends_at = served.certificate.ends_at;
  if (const auto& own = served.authority) said.authority = {AuthoritySaid{own->title, own->ends_at, own->fingerprint}};
  return formats::print_json(said) + "\n";
}

void add_tls_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* command = app.add_subcommand("tls", "Looks after what HTTPS on the shop's own network needs");
  command->require_subcommand(1);
  add_init(*command, std::make_shared<TlsCall>(), answer);
  add_use(*command, std::make_shared<TlsCall>(), answer);
}

}  // namespace hw::terminal
