package tickover.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.session.Round;
import tickover.store.LogPlace;

/** The desktop console. */
@Command(
        name = "console",
        description = {
            "Opens the console: pick the vehicle, walk round the engine with the probe, see live"
                    + " what it feels (trace, order waterfall, the level of every part) and what"
                    + " the captures say as they come; hold visits against each other, listen to"
                    + " one part, judge a removed one on the bench, and keep it all.",
            "",
            "Everything can be done with the keyboard: F1 says how. What is recorded is on disk"
                    + " within a second, and stays there if the console is closed.",
            "",
            "With --replay a recording runs again in place of the probe, as it was or faster: its"
                    + " captures begin and end where they did. Nothing is recorded; finishing takes"
                    + " its visit into the log unless it is there."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover console                  with the probe on a serial port",
            "  tickover console --demo           with a simulated van, in a log of its own",
            "  tickover console --port /dev/ttyACM0",
            "  tickover console --replay idler-aircon.tkr --pace 4"
        })
final class ConsoleVerb implements Callable<Integer> {
    private final ConsoleOpener opener;

    @Mixin private final LogOptions window;

    @Option(
            names = "--demo",
            description =
                    "Let a simulated van play the part of the engine; it has a log of its own"
                            + " beside yours.")
    private boolean demo;

    @Option(
            names = "--replay",
            paramLabel = "FILE",
            description = "Let a recording run again in place of the probe.")
    private Path replay;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            description =
                    "The probe's port, listed or not. Default: the one that answers like a probe;"
                            + " another can be chosen on the screen.")
    private String port = "";

    @Option(
            names = "--pace",
            paramLabel = "N",
            description =
                    "How many times as fast the recording runs, 0.1 to 100; it can be changed while"
                            + " it runs. Default: ${DEFAULT-VALUE}.")
    private double pace = 1;

    ConsoleVerb(Terminal terminal, ConsoleOpener opener) {
        this.opener = opener;
        this.window = new LogOptions(terminal);
    }

    @Override
    public Integer call() {
        if (demo && replay != null) {
            throw CliException.badInput("--demo and --replay: choose one of the two");
        }
        if (!port.isEmpty() && (demo || replay != null)) {
            throw CliException.badInput(
                    "--port and " + (demo ? "--demo" : "--replay") + ": choose one of the two");
        }
        if (!(pace >= 0.1 && pace <= 100)) {
            throw CliException.badInput("--pace " + pace + ": need 0.1 to 100");
        }
        LogPlace log = window.log();
        if (replay != null) {
            // A wrong file is said here, before a window opens.
            Round.vehicleOf(replay);
            return opener.open(
                    new ConsoleWish(log, false, replay.toAbsolutePath().toString(), pace, ""));
        }
        return opener.open(
                new ConsoleWish(
                        demo ? LogPlace.folder(log.local().resolve("console-demo")) : log,
                        demo,
                        "",
                        1,
                        port));
    }
}
