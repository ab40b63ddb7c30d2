package tickover.cli;

import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line as a whole: which verbs there are, and how every one of them ends. */
@Command(
        name = "tickover",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        synopsisSubcommandLabel = "VERB",
        description = TickoverCommand.DESCRIPTION,
        commandListHeading = "%nVerbs:%n",
        optionListHeading = "%nOptions:%n")
public final class TickoverCommand implements Runnable {
    static final String DESCRIPTION =
            "Finds which part of a running engine's front makes the noise, proves it, proves the"
                    + " repair, and keeps the levels for the next visit.%n%nNew here? 'tickover"
                    + " demo' runs the whole job on a simulated van in under a minute; 'tickover"
                    + " help VERB' explains one verb with examples.";

    /** Set by the launchers when the error stream is a terminal, which Java cannot ask. */
    private static final String WATCHED = "tickover.watched";

    @Spec private CommandSpec spec;

    private TickoverCommand() {}

    /**
     * Runs one command line in this process.
     *
     * @param args the command line without the program's name
     * @param out answers
     * @param err messages
     * @param console opens the desktop console
     * @return the exit code
     */
    public static int run(String[] args, PrintStream out, PrintStream err, ConsoleOpener console) {
        return run(args, out, err, System.getenv(), console);
    }

    /**
     * Runs one command line in this process and in a given environment.
     *
     * @param args the command line without the program's name
     * @param out answers
     * @param err messages
     * @param environment variables that stand for the process's own
     * @param console opens the desktop console
     * @return the exit code
     */
    public static int run(
            String[] args,
            PrintStream out,
            PrintStream err,
            Map<String, String> environment,
            ConsoleOpener console) {
        Objects.requireNonNull(args, "args");
        boolean watched = Boolean.parseBoolean(System.getProperty(WATCHED, "false"));
        Terminal terminal = new Terminal(out, err, environment, watched);
        Failures failures = new Failures(terminal, mistakeFile(environment));
        CommandLine line = build(terminal, console);
        line.setOut(new PrintWriter(out, true, StandardCharsets.UTF_8));
        line.setErr(new PrintWriter(err, true, StandardCharsets.UTF_8));
        line.setParameterExceptionHandler((error, unused) -> failures.usage(error));
        line.setExecutionExceptionHandler((error, unused, alsoUnused) -> failures.failed(error));
        try {
            int code = line.execute(args);
            if (out.checkError()) {
                terminal.note(
                        "standard output cannot be written to; nothing of the answer is lost");
                return ExitCode.OUTSIDE_FAILED;
            }
            return code;
        } catch (Error error) {
            return failures.failed(error);
        } finally {
            out.flush();
            err.flush();
        }
    }

    /** Every verb, in the order of the job. */
    private static List<Object> verbs(Terminal terminal, ConsoleOpener console) {
        return List.of(
                new DemoVerb(terminal),
                new ConsoleVerb(terminal, console),
                new DriveVerb(terminal),
                new PortsVerb(terminal),
                new RecordVerb(terminal),
                new ReplayVerb(terminal),
                new ImportVerb(terminal),
                new VisitsVerb(terminal),
                new VehiclesVerb(terminal),
                new FindingsVerb(terminal),
                new ReportVerb(terminal),
                new CompareVerb(terminal),
                new TrendVerb(terminal),
                new FleetVerb(terminal),
                new RepairVerb(terminal),
                new NoteVerb(terminal),
                new WaterfallVerb(terminal),
                new OrdersVerb(terminal),
                new ExportVerb(terminal),
                new ReanalyseVerb(terminal),
                new BackupVerb(terminal),
                new VerifyVerb(terminal),
                new TidyVerb(terminal),
                new TableVerb(terminal),
                new BenchVerb(terminal),
                new ListenVerb(terminal),
                new SimulateVerb(terminal),
                new StudyVerb(terminal));
    }

    /** Names of all verbs that answer, in the order of the job. */
    static List<String> verbNames() {
        PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream());
        return verbs(new Terminal(nowhere, nowhere, Map.of(), false), wish -> ExitCode.DONE)
                .stream()
                .map(v -> v.getClass().getAnnotation(Command.class).name())
                .toList();
    }

    private static CommandLine build(Terminal terminal, ConsoleOpener console) {
        CommandLine line = new CommandLine(new TickoverCommand());
        verbs(terminal, console).forEach(line::addSubcommand);
        line.addSubcommand(new HelpCommand());
        line.getSubcommands()
                .get("study")
                .addSubcommand(new TrendStudyVerb(terminal))
                .addSubcommand(new LogStudyVerb(terminal));
        line.registerConverter(LocalDate.class, Moment::day);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpWidth(88);
        line.setUsageHelpLongOptionsMaxWidth(24);
        describeExitCodes(line);
        line.getSubcommands().values().forEach(TickoverCommand::describeExitCodes);
        return line;
    }

    private static void describeExitCodes(CommandLine line) {
        Map<String, String> codes = new LinkedHashMap<>();
        codes.put("0", "done, or answered");
        codes.put("1", "a check failed, or the answer is \"no\"");
        codes.put("2", "bad usage or bad input");
        codes.put("3", "the outside failed (port, disk, log), or the program made a mistake");
        line.getCommandSpec()
                .usageMessage()
                .exitCodeListHeading("%nExit codes:%n")
                .exitCodeList(codes);
    }

    private static Path mistakeFile(Map<String, String> environment) {
        return DataFolder.local(
                        environment, System.getProperty("os.name"), System.getProperty("user.home"))
                .resolve("mistakes.txt");
    }

    /** Without a verb there is nothing to do; that is a usage error, not silence. */
    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "a verb is missing");
    }
}
