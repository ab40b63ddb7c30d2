package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.wire.TextUnit;

class TextSettingsTest {
    @TempDir private Path data;

    private SourceInfo apply(String device, String columns, String units, String seen) {
        SourceInfo info = SourceInfo.of(Role.PROBE, Language.TEXT, "ttyX", 115_200, device);
        LineChoice.Wish wish = new LineChoice.Wish("ttyX", 0, "", "", columns, units, 0, data);
        return TextSettings.of(data).apply(info, wish, seen);
    }

    @Test
    void aUnitIsAskedOnceForEachDevice() {
        assertEquals(TextUnit.UNKNOWN, apply("one", "", "", "").unit());
        assertEquals(TextUnit.G, apply("one", "", "g", "").unit());
        assertEquals(TextUnit.G, apply("one", "", "", "").unit());
        assertEquals(TextUnit.UNKNOWN, apply("two", "", "", "").unit());
    }

    /** Asking a port hears the header of a board that sends it only when it is switched on. */
    @Test
    void aHeaderThatWasHeardOnceIsKnownFromThenOn() {
        assertEquals("millis,ax", apply("one", "", "", "millis,ax").header());
        assertEquals("millis,ax", apply("one", "", "mg", "").header());
        assertEquals(TextUnit.MILLI_G, apply("one", "", "", "").unit(), "both are kept");
        assertEquals("t_us,ax,ay", apply("one", "", "", "t_us,ax,ay").header(), "another sketch");
        assertEquals("t_us,az", apply("one", "t_us,az", "", "t_us,ax,ay").header(), "as was said");
        assertEquals("", apply("two", "", "", "").header());
    }

    @Test
    void whatCannotBeIsOneSentence() throws Exception {
        AcquisitionException e =
                assertThrows(AcquisitionException.class, () -> apply("one", "x,y", "", ""));
        assertTrue(e.getMessage().startsWith("--columns"), e.getMessage());
        Files.writeString(data.resolve("text-probes.json"), "not JSON {");
        e = assertThrows(AcquisitionException.class, () -> apply("one", "", "", ""));
        assertTrue(e.getMessage().contains("say --units once more"), e.getMessage());
    }
}
