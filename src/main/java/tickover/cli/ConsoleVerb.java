package tickover.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The desktop console. */
@Command(
        name = "console",
        description = {
            "Opens the console: pick the vehicle, walk round the engine with the probe, see live"
                    + " what it feels (trace, order waterfall, the level of every part) and what"
                    + " the captures say as they come, and keep it all.",
            "",
            "Everything can be done with the keyboard: F1 says how. What is recorded is on disk"
                    + " within a second, and stays there if the console is closed."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover console            with the probe on a serial port",
            "  tickover console --demo     with a simulated van, in a log of its own"
        })
final class ConsoleVerb implements Callable<Integer> {
    private final ConsoleOpener opener;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--demo",
            description =
                    "Let a simulated van play the part of the engine; it has a log of its own"
                            + " beside yours.")
    private boolean demo;

    ConsoleVerb(Terminal terminal, ConsoleOpener opener) {
        this.opener = opener;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (shared.json()) {
            throw CliException.badInput("the console is a window; leave --json out");
        }
        Path data = shared.dataFolder();
        return opener.open(demo ? data.resolve("console-demo") : data, demo);
    }
}
