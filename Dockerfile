FROM mcr.microsoft.com/dotnet/sdk:10.0 AS build
WORKDIR /source
COPY . .
RUN dotnet publish src/PlateTickets.Web -c Release -o /app

FROM mcr.microsoft.com/dotnet/aspnet:10.0
WORKDIR /app
COPY --from=build /app .
ENV Room__DataFolder=/data
VOLUME /data
ENTRYPOINT ["dotnet", "PlateTickets.Web.dll"]
