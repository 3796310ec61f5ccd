@echo off
"%~dp0pleatwright.exe" %*
if errorlevel 1 pause
