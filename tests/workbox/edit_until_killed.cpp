// edit_until_killed PATH SEED: opens a workbox and edits it at random. Prints one line when it is
// about to open, one when it has, and one after each edit that is safe in the file. Never ends.

#include "base/input_error.h"
#include "workbox/random_edits.h"

#include <QCoreApplication>

#include <cstdio>

int main(int argc, char* argv[]) {
    using namespace otherskein::workbox;
    const QCoreApplication application(argc, argv);
    const QStringList arguments = application.arguments();
    if (arguments.size() != 3) {
        return 2;
    }
    const auto say = [](const char* line) {
        std::puts(line);
        std::fflush(stdout);
    };
    try {
        say("opening");
        Document document(arguments[1]);
        RandomEdits edits(document, arguments[2].toULongLong());
        say("open");
        while (true) {
            edits.step();
            say("saved");
        }
    } catch (const otherskein::base::InputError& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
