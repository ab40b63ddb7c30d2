package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The pages about the visit folder and the log say what is so. */
class DocumentedTest {
    private static final Path FOLDER_PAGE = Path.of("docs", "visit-folder.md");
    private static final Path LOG_PAGE = Path.of("docs", "log.md");

    @TempDir Path temp;
    private Visit visit;

    @BeforeEach
    void makeVisit() {
        visit = VisitFolder.read(Folders.good(temp.resolve("visit")));
    }

    private static List<String> blocks(Path page, String language) throws IOException {
        return Pattern.compile("```" + language + "\n(.*?)```", Pattern.DOTALL)
                .matcher(Files.readString(page))
                .results()
                .map(m -> m.group(1))
                .toList();
    }

    @Test
    void exampleFolderIsAGoodOne() throws IOException {
        List<String> texts = blocks(FOLDER_PAGE, "toml");
        assertEquals(2, texts.size());
        Files.writeString(temp.resolve("visit/vehicle.toml"), texts.get(0));
        Files.writeString(temp.resolve("visit/visit.toml"), texts.get(1));
        Visit shown = VisitFolder.read(temp.resolve("visit"));
        assertEquals("ML-07", shown.vehicle().unit());
        assertEquals(visit.captures(), shown.captures());
    }

    /** Every table and column of the database is on the page. */
    @Test
    void everyColumnIsDescribed() throws Exception {
        String page = Files.readString(LOG_PAGE);
        try (Log log = Log.open(temp.resolve("data"));
                Raw raw = Raw.open(temp.resolve("data"))) {
            assertEquals(List.of(), log.visits());
            String columns =
                    raw.rows(
                            "SELECT m.name, c.name FROM sqlite_master m, pragma_table_info(m.name)"
                                    + " c WHERE m.type = 'table'");
            assertTrue(columns.lines().count() > 80, columns);
            for (String line : columns.lines().toList()) {
                String table = line.substring(0, line.indexOf('|'));
                String column = line.substring(line.indexOf('|') + 1);
                String row =
                        page.lines()
                                .filter(l -> l.startsWith("| `" + table + "` |"))
                                .findFirst()
                                .orElse("");
                assertTrue(row.contains("`" + column + "`"), table + "." + column);
            }
        }
    }

    @Test
    void exampleQueriesAnswer() throws Exception {
        Path data = temp.resolve("data");
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
            List<String> queries = blocks(LOG_PAGE, "sql");
            assertEquals(4, queries.size());
            try (Raw raw = Raw.open(data)) {
                assertEquals("ML-07|2026-03-04T09:30:00\n", raw.rows(queries.get(2)));
                log.saveResult(visit.id(), Results.of(visit, 9));
                log.saveResult(visit.id(), Results.of(visit, 0.5));
                assertEquals(
                        "ML-07|2026-03-04T09:30:00|component|idler|bearing-inner-ring|0.875\n",
                        raw.rows(queries.get(0)));
                assertEquals(
                        "2026-03-04T09:30:00|182340.0|780.25|0.5|0.01\n", raw.rows(queries.get(1)));
                assertEquals("", raw.rows(queries.get(2)));
                long bytes = 0;
                for (String name : Folders.tree(temp.resolve("visit"))) {
                    bytes += Files.size(temp.resolve("visit").resolve(name));
                }
                assertEquals("ML-07|" + bytes + "\n", raw.rows(queries.get(3)));
            }
        }
    }

    /** The questions that every front end asks are answered by an index, never by a full scan. */
    @Test
    void questionsAreAnsweredByIndexes() throws Exception {
        Path data = temp.resolve("data");
        try (Log log = Log.open(data);
                Raw raw = Raw.open(data)) {
            assertEquals(List.of(), log.visits());
            for (String sql :
                    List.of(
                            Sql.LIST_VISITS_OF_UNIT,
                            HistorySql.VEHICLE_RESULTS,
                            HistorySql.VEHICLE_CAPTURES,
                            HistorySql.VEHICLE_LEVELS,
                            HistorySql.LAST_VISIT)) {
                String plan = raw.rows("EXPLAIN QUERY PLAN " + sql.replace("?", "'x'"));
                assertTrue(plan.contains("visit_by_vehicle"), plan);
                assertTrue(!plan.contains("SCAN"), plan);
            }
            String sisters =
                    raw.rows("EXPLAIN QUERY PLAN " + HistorySql.SISTER_LEVELS.replace("?", "'x'"));
            assertTrue(sisters.contains("standing_by_drive"), sisters);
        }
    }
}
