package tickover.session;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class PortSurveyTest {
    /** Whoever builds a probe from that page alone has to choose a rate at which it is found. */
    @Test
    void protocolNamesTheRatesThatAreTriedInTheirOrder() throws IOException {
        String page = Files.readString(Path.of("firmware-protocol", "protocol.md"));
        String rates =
                PortSurvey.SPEEDS_BAUD.stream()
                        .map(String::valueOf)
                        .collect(Collectors.joining(", "));
        assertTrue(page.replaceAll("\\s+", " ").contains(rates + " Bd"), rates);
    }
}
