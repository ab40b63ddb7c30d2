package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The page about the drive says what the code does. */
class DriveDocTest {
    private static final Path PAGE = Path.of("docs", "drive.md");
    private static final Pattern BEARING =
            Pattern.compile("\\| (\\d{3,4}) \\| ([^|]+) \\| ([\\d.]+) \\| ([\\d.]+) \\|");

    @Test
    void pageListsTheBearingTable() throws IOException {
        TreeMap<String, List<BearingGeometry>> page = new TreeMap<>();
        for (String line : Files.readAllLines(PAGE)) {
            Matcher m = BEARING.matcher(line);
            if (m.matches()) {
                double ballMm = Double.parseDouble(m.group(3));
                double pitchMm = Double.parseDouble(m.group(4));
                page.put(
                        m.group(1),
                        List.of(m.group(2).split(" or ")).stream()
                                .map(Integer::parseInt)
                                .map(n -> new BearingGeometry(n, ballMm, pitchMm, 0))
                                .toList());
            }
        }
        TreeMap<String, List<BearingGeometry>> code =
                BearingTable.designations().stream()
                        .collect(
                                Collectors.toMap(
                                        d -> d, BearingTable::typical, (a, b) -> a, TreeMap::new));
        assertEquals(code, page);
    }

    @Test
    void pageStatesTheTolerancesAndTheOrdinaryCapture() throws IOException {
        String page = Files.readString(PAGE).replaceAll("\\s+", " ");
        SearchTolerance usual = SearchTolerance.USUAL;
        assertStates(page, "between it and the crank | " + percent(usual.beltSlipRatio()));
        assertStates(page, "rolling of a bearing | " + percent(usual.bearingSlipRatio()));
        assertStates(page, "were looked up | " + percent(usual.typicalInternalsRatio()));
        assertStates(page, "computed from positions | " + percent(usual.beltLengthRatio()));
        assertStates(page, "differ by more than " + percent(usual.beltLengthRatio()));
        assertStates(
                page,
                String.format(
                        "%.0f s at the vehicle's idle speed, %.0f rpm if none is given",
                        DriveModel.ORDINARY_CAPTURE_S, DriveModel.ORDINARY_IDLE_RPM));
        assertStates(page, String.format("up to order %.0f.", DriveModel.ENGINE_ORDERS));
    }

    @Test
    void everySourceThatThePageCitesIsListed() throws IOException {
        String sources = Files.readString(Path.of("docs", "references.bib"));
        Matcher m = Pattern.compile("\\[(\\w+)\\]").matcher(Files.readString(PAGE));
        int cited = 0;
        while (m.find()) {
            cited++;
            assertStates(sources, "{" + m.group(1) + ",");
        }
        assertTrue(cited > 0);
    }

    private static String percent(double ratio) {
        return Double.toString(Math.round(1000 * ratio) / 10.0).replaceAll("\\.0$", "") + " %";
    }

    private static void assertStates(String text, String words) {
        assertTrue(text.contains(words), words);
    }
}
