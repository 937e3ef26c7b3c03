#include "office_commands.hpp"

#include <cstdio>
#include <filesystem>
#include <memory>

#include "office/office.hpp"
#include "office/server.hpp"
#include "office/store.hpp"

namespace awlmark::cli {
namespace {

using office::Store;

struct OfficeArguments {
  office::ServerOptions server{.pages = AWLMARK_WEB_DIR};
  std::string place;
  std::string file;
  std::string role = "crew";
};

// What the machine refuses is said, with exit code 1.
template <class Act>
int on_store(Act act) {
  try {
    return act();
  } catch (const office::StoreError& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}

int invite(const OfficeArguments& arguments) {
  return on_store([&] {
    Store store(office::open_database(arguments.place));
    office::Office desk(store);
    std::printf("%s\nGood for ten minutes, for one device, as %s.\n", desk.invite(*office::role_of(arguments.role), "command line").c_str(),
                arguments.role.c_str());
    return 0;
  });
}

int tell_faults(const std::vector<std::string>& faults, const std::string& where) {
  for (const auto& fault : faults) std::fprintf(stderr, "%s\n", fault.c_str());
  if (faults.empty()) std::printf("%s: every revision and every photograph is what it was\n", where.c_str());
  return faults.empty() ? 0 : 1;
}

// Copies every table into a new, empty store and verifies the copy before it says so.
int copy(const std::string& from, const std::string& to, bool new_file) {
  return on_store([&] {
    if (new_file && std::filesystem::exists(to)) {
      std::fprintf(stderr, "%s: is there already; name a new file\n", to.c_str());
      return 2;
    }
    Store source(office::open_database(from));
    Store target(office::open_database(to));
    source.copy_to(target);
    return tell_faults(target.verify(), to);
  });
}

int verify(const OfficeArguments& arguments) {
  return on_store([&] {
    Store store(office::open_database(arguments.place));
    return tell_faults(store.verify(), store.where());
  });
}

CLI::Option* add_place(CLI::App* command, std::string& place) {
  return command->add_option("--data", place, "the office's file, or a PostgreSQL connection (postgresql://...)");
}

}  // namespace

void add_office_commands(CLI::App& app, int& code) {
  const auto arguments = std::make_shared<OfficeArguments>();
  auto* serve = app.add_subcommand("serve", "serve the page, and with --data keep jobs (docs/office.md)");
  serve->add_option("--dir", arguments->server.pages, "folder of the built page")->capture_default_str();
  serve->add_option("--host", arguments->server.host, "address to listen on")->capture_default_str();
  serve->add_option("--port", arguments->server.port, "port to listen on")->check(CLI::Range(1, 65535))->capture_default_str();
  add_place(serve, arguments->server.place);
  serve->add_option("--rate", arguments->server.requests_in_10s, "requests in ten seconds that one address may make")
      ->check(CLI::Range(1, 100000000))
      ->capture_default_str();
  serve->add_option("--cert", arguments->server.certificate, "certificate chain, PEM");
  serve->add_option("--key", arguments->server.key, "its key, PEM");
  serve->callback([arguments, &code] { code = office::serve(arguments->server); });

  auto* invite_command = app.add_subcommand("invite", "print a code with which one device joins the office");
  add_place(invite_command, arguments->place)->required();
  invite_command->add_option("--role", arguments->role, "owner, crew or reader")->check(CLI::IsMember({"owner", "crew", "reader"}))->capture_default_str();
  invite_command->callback([arguments, &code] { code = invite(*arguments); });

  auto* backup = app.add_subcommand("backup", "copy the whole office into a new file, while it works");
  add_place(backup, arguments->place)->required();
  backup->add_option("file", arguments->file, "the new file")->required();
  backup->callback([arguments, &code] { code = copy(arguments->place, arguments->file, true); });

  auto* restore = app.add_subcommand("restore", "fill a new, empty office from a backup");
  add_place(restore, arguments->place)->required();
  restore->add_option("file", arguments->file, "the backup")->required()->check(CLI::ExistingFile);
  restore->callback([arguments, &code] { code = copy(arguments->file, arguments->place, false); });

  auto* verify_command = app.add_subcommand("verify", "check every revision and photograph of an office or a backup");
  add_place(verify_command, arguments->place)->required();
  verify_command->callback([arguments, &code] { code = verify(*arguments); });
}

}  // namespace awlmark::cli
