package tickover.cli;

import com.google.gson.Gson;
import com.google.gson.JsonObject;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.store.History;
import tickover.store.Log;

/** Hands out the log's tables as they are. */
@Command(
        name = "table",
        description = {
            "Writes a table of the log as CSV, or with --lines as JSON Lines: one object per row, a"
                    + " column left out where the row has nothing. Without a name lists the tables;"
                    + " docs/log.md says what they hold.",
            "",
            "With --all every table goes to a file of its own in a folder."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover table",
            "  tickover table part_level > levels.csv",
            "  tickover table visit --lines",
            "  tickover table --all tables"
        })
final class TableVerb implements Callable<Integer> {
    private static final Gson ONE_LINE = new Gson();

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(arity = "0..1", paramLabel = "NAME", description = "Which table.")
    private String name;

    @Option(names = "--lines", description = "JSON Lines instead of CSV.")
    private boolean lines;

    @Option(
            names = "--all",
            paramLabel = "DIR",
            description = "Write every table there, each as NAME.csv or NAME.jsonl.")
    private Path all;

    TableVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (name != null && (all != null || shared.json())) {
            throw CliException.badInput(
                    "a table goes out as CSV or with --lines; name it alone, without --all or"
                            + " --json");
        }
        try (Log log = Log.open(shared.log())) {
            List<String> tables = log.history().tables();
            if (all != null) {
                writeAll(log, tables);
            } else if (name == null) {
                if (shared.json()) {
                    terminal.json(Json.words(tables));
                } else {
                    terminal.lines(tables);
                }
            } else if (tables.contains(name)) {
                Writer out = new OutputStreamWriter(terminal.out(), StandardCharsets.UTF_8);
                log.history().table(name, new Out(out, lines));
                out.flush();
            } else {
                throw CliException.badInput(
                        "there is no table "
                                + name
                                + " in the log; there are "
                                + String.join(", ", tables));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return ExitCode.DONE;
    }

    private void writeAll(Log log, List<String> tables) throws IOException {
        Files.createDirectories(all);
        for (String table : tables) {
            Path file = all.resolve(table + (lines ? ".jsonl" : ".csv"));
            terminal.progress("writing " + file);
            try (BufferedWriter out = Files.newBufferedWriter(file)) {
                log.history().table(table, new Out(out, lines));
            } finally {
                terminal.progressDone();
            }
        }
        terminal.line("wrote " + tables.size() + " tables to " + all);
    }

    /** Writes rows as they come. */
    private static final class Out implements History.TableSink {
        private final Writer writer;
        private final boolean lines;
        private List<String> names = List.of();

        Out(Writer writer, boolean lines) {
            this.writer = writer;
            this.lines = lines;
        }

        @Override
        public void head(List<String> columns) {
            names = List.copyOf(columns);
            if (!lines) {
                write(Csv.line(names));
            }
        }

        @Override
        public void row(List<Object> values) {
            if (!lines) {
                write(
                        Csv.line(
                                values.stream()
                                        .map(v -> Objects.requireNonNullElse(v, ""))
                                        .toList()));
                return;
            }
            JsonObject o = new JsonObject();
            for (int i = 0; i < names.size(); i++) {
                Object value = values.get(i);
                if (value instanceof Number number) {
                    o.addProperty(names.get(i), number);
                } else if (value != null) {
                    o.addProperty(names.get(i), value.toString());
                }
            }
            write(ONE_LINE.toJson(o) + "\n");
        }

        private void write(String text) {
            try {
                writer.write(text);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
