package tickover.cli;

import com.google.gson.JsonObject;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.session.PortAnswer;
import tickover.session.PortSurvey;

/** Which serial ports there are, and what answers there. */
@Command(
        name = "ports",
        description = {
            "Lists the serial ports, and asks each what it is: a probe, a plain-text probe, a"
                    + " text-command adapter for the diagnostic socket, or nothing known.",
            "",
            "Asking opens every port for up to some seconds, which restarts many hobby boards."
                    + " Ports that another program uses are left alone."
        },
        footerHeading = "%nExamples:%n",
        footer = {"  tickover ports", "  tickover ports --list", "  tickover ports /dev/ttyACM0"})
final class PortsVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "PORT",
            arity = "0..*",
            description = "Ports to ask, listed by the system or not. Default: all listed ones.")
    private List<String> ports = List.of();

    @Option(names = "--list", description = "Only list; open nothing.")
    private boolean listOnly;

    PortsVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        List<PortAnswer> answers;
        try {
            answers = listOnly ? PortSurvey.list(ports) : PortSurvey.ask(ports, terminal::progress);
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(Json.array(answers, PortsVerb::json));
        } else if (answers.isEmpty()) {
            terminal.line(
                    "No serial port is there. Plug the probe in; a USB lead that only charges has"
                            + " no data lines.");
        } else {
            terminal.lines(table(answers).lines());
        }
        boolean anyDevice = answers.stream().anyMatch(a -> a.kind().isDevice());
        return listOnly || anyDevice ? ExitCode.DONE : ExitCode.NO;
    }

    private static JsonObject json(PortAnswer a) {
        JsonObject o = new JsonObject();
        o.addProperty("port", a.port());
        o.addProperty("kind", a.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        if (a.baud() > 0) {
            o.addProperty("baud", a.baud());
        }
        o.addProperty("device", a.deviceKey());
        o.addProperty("text", a.text());
        return o;
    }

    private static TextTable table(List<PortAnswer> answers) {
        TextTable table = new TextTable("Port", "What is there", ">Speed, Bd", "More");
        for (PortAnswer a : answers) {
            table.row(
                    a.port(),
                    a.kind().words(),
                    a.baud() > 0 ? Integer.toString(a.baud()) : "-",
                    a.text());
        }
        return table;
    }
}
