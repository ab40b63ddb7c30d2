@echo off
rem Starts Tickover. Builds it first when the jar is missing or the sources have changed since.
setlocal
set "home=%~dp0"
if "%home:~-1%"=="\" set "home=%home:~0,-1%"
set "target=%home%\target"
set "jar=%target%\tickover-0.1.0-all.jar"
set "archive=%target%\tickover.jsa"
set "log=%target%\launcher-build.log"
set "built=%target%\launcher-sources"
set "lock=%target%\launcher.lock"

if defined JAVA_HOME (
    set "java=%JAVA_HOME%\bin\java.exe"
) else (
    for %%J in (java.exe) do set "java=%%~$PATH:J"
)
if not exist "%java%" (
    echo tickover: Java 17 or later is needed; set JAVA_HOME to a JDK or put java on the PATH. 1>&2
    exit /b 3
)
if exist "%target%\launcher.java" (
    set /p known=<"%target%\launcher.java"
)
if not "%known%"=="%java%" call :check_java || exit /b 3

call :is_stale
if errorlevel 1 call :build || exit /b 3
if not exist "%archive%" (
    "%java%" -Xlog:disable -XX:ArchiveClassesAtExit="%archive%" -XX:+UseSerialGC -Djava.awt.headless=true -jar "%jar%" help findings >nul 2>nul
)

rem Short verbs end before an optimising compiler would pay; the others compute for seconds.
set "light=-XX:TieredStopAtLevel=1"
for %%V in (bench compare console demo orders report simulate trend waterfall) do if /i "%~1"=="%%V" set "light="
"%java%" -Xlog:disable -Xlog:all=error:stderr -Xshare:auto -XX:SharedArchiveFile="%archive%" -XX:+UseSerialGC %light% -Djava.awt.headless=true -Dtickover.command=tickover -jar "%jar%" %*
exit /b %errorlevel%

:check_java
set "major="
for /f "tokens=3" %%A in ('""%java%" -version 2^>^&1" ^| findstr /i version') do for /f "delims=.-" %%B in ("%%~A") do set "major=%%B"
if not defined major set "major=0"
if %major% LSS 17 (
    echo tickover: Java 17 or later is needed; %java% is version %major%. 1>&2
    exit /b 1
)
if exist "%target%" >"%target%\launcher.java" echo %java%
exit /b 0

rem Ends with 1 if there is something to build: no jar, or sources unlike those it was built from.
:is_stale
if not exist "%jar%" exit /b 1
if not exist "%built%" exit /b 0
fc /b "%home%\pom.xml" "%built%\pom.xml" >nul 2>nul || exit /b 1
robocopy "%home%\src\main" "%built%\main" /mir /l /njh /njs /nfl /ndl >nul 2>nul
if errorlevel 1 exit /b 1
exit /b 0

:build
where mvn >nul 2>nul
if errorlevel 1 (
    echo tickover: it has to be built once and Maven is not on the PATH. 1>&2
    exit /b 1
)
if not exist "%target%" mkdir "%target%"
:wait
mkdir "%lock%" 2>nul
if errorlevel 1 (
    echo tickover: another start is building; waiting for it ^(if none is, remove %lock%^). 1>&2
    timeout /t 5 /nobreak >nul
    call :is_stale && exit /b 0
    goto :wait
)
echo tickover: building; the first time takes about a minute, more if libraries must be downloaded ^(log: %log%^). 1>&2
call mvn -B -ntp -f "%home%\pom.xml" -DskipTests package >"%log%" 2>&1
if errorlevel 1 (
    rmdir "%lock%"
    echo tickover: the build failed; the log is %log% 1>&2
    exit /b 1
)
robocopy "%home%\src\main" "%built%\main" /mir /njh /njs /nfl /ndl >nul 2>nul
copy /y "%home%\pom.xml" "%built%\pom.xml" >nul
if exist "%archive%" del "%archive%"
rmdir "%lock%"
exit /b 0
