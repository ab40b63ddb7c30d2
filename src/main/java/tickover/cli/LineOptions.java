package tickover.cli;

import java.nio.file.Path;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tickover.session.LineChoice;

/** Which lines to record from, and how to read them. */
@Command
final class LineOptions {
    private static final String CRANK = "crank";

    @Option(
            names = "--port",
            paramLabel = "PORT",
            description =
                    "The probe's serial port, such as /dev/ttyACM0 or COM5. Default: the one port"
                            + " that answers like a probe.")
    private String port = "";

    @Option(
            names = "--baud",
            paramLabel = "N",
            description =
                    "Speed of the probe's line, bits a second. Default: found by asking at each"
                            + " usual speed.")
    private int baud;

    @Option(
            names = "--tach",
            paramLabel = "PORT",
            description = "A second board that times tach edges. Default: edges from the probe.")
    private String tach = "";

    @Option(
            names = "--obd",
            paramLabel = "PORT",
            description = "A text-command adapter on the diagnostic socket, for engine speed.")
    private String obd = "";

    @Option(
            names = "--pulses",
            paramLabel = "N",
            description = "Tach edges per turn of the marked pulley. Default: ${DEFAULT-VALUE}.")
    private int pulses = 1;

    @Option(
            names = "--tach-pulley",
            paramLabel = "NAME",
            description = "The pulley that carries the tach's mark. Default: ${DEFAULT-VALUE}.")
    private String tachPulley = CRANK;

    @Option(
            names = "--units",
            paramLabel = "WORD",
            description =
                    "What the numbers of a plain-text probe stand for: mps2, g, mg, or counts with"
                            + " --count. Asked once, then remembered for the device.")
    private String units = "";

    @Option(
            names = "--count",
            paramLabel = "M/S2",
            description = "m/s² per count of a plain-text probe whose numbers are counts.")
    private double count;

    @Option(
            names = "--columns",
            paramLabel = "HEADER",
            description =
                    "Columns of a plain-text probe that sends no header line, such as"
                            + " t_us,ax,ay,az.")
    private String columns = "";

    int pulsesPerTurn() {
        if (!(pulses >= 1)) {
            throw CliException.badInput("--pulses " + pulses + ": need 1 or more");
        }
        return pulses;
    }

    String tachPulley() {
        return tachPulley;
    }

    boolean marksCrank() {
        return tachPulley.equals(CRANK);
    }

    /** Finds and identifies the lines. */
    LineChoice choose(Terminal terminal, Path dataFolder) {
        if (!(baud >= 0)) {
            throw CliException.badInput("--baud " + baud + ": need bits a second, above 0");
        }
        LineChoice.Wish wish =
                new LineChoice.Wish(
                        port,
                        baud,
                        tach,
                        obd,
                        columns,
                        units.toLowerCase(Locale.ROOT),
                        count,
                        dataFolder);
        try {
            return LineChoice.of(wish, terminal::progress);
        } finally {
            terminal.progressDone();
        }
    }
}
